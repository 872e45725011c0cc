# One rig, every site of a campground: a row as soon as it is computed.
curl -s http://127.0.0.1:8787/v1/fit/batch \
  -H 'Content-Type: application/json' \
  -d "{\"rigs\": [$(cat data/demo/rigs/van-camper.json)], \"campgrounds\": [\"quillfeather-flats\"]}"

# The sites as GeoJSON, page by page, for geographic information systems.
curl -s "http://127.0.0.1:8787/ogc/collections/sites/items?layout=pull-through&limit=2"
