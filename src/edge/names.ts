/** Names that the worker and its objects know each other by. */

/** Of the one directory. */
export const DIRECTORY_NAME = "directory";
/** Of the object that answers callers who are not known, so that they wake no other. */
export const NOBODY = "";
/** Address of a call inside; where it goes is decided by the object that it is sent to. */
export const INSIDE = "https://inside.invalid/";
export const RECORD_PATH = "/record";
