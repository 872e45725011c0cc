import json, os, urllib.error, urllib.request

PADWRIGHT = os.environ.get("PADWRIGHT", "http://127.0.0.1:8787")


def ask(path, body=None):
    request = urllib.request.Request(PADWRIGHT + path, headers={"Content-Type": "application/json"})
    if body is not None:
        request.data = json.dumps(body).encode()
    return urllib.request.urlopen(request)


with open("data/demo/rigs/van-camper.json") as file:
    rig = json.load(file)

# One rig, one site.
with ask("/v1/fit", {"rig": rig, "site": {"campground": "quillfeather-flats", "site": "curlew-3"}}) as answer:
    print(json.load(answer)["headline"])

# One rig, every site of a campground: a row as soon as it is computed.
with ask("/v1/fit/batch", {"rigs": [rig], "campgrounds": ["quillfeather-flats"]}) as rows:
    verdicts = [json.loads(row)["fit"]["verdict"] for row in rows]
print(len(verdicts), "sites,", verdicts.count("fits"), "fit")

# What is refused says why.
try:
    ask("/v1/fit", {"rig": {**rig, "length": "long"}, "site": {"campground": "quillfeather-flats", "site": "curlew-3"}})
except urllib.error.HTTPError as refused:
    print(refused.code, json.load(refused)["errors"][0]["pointer"])
