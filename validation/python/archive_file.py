"""What Python's standard library makes of an archive of a job, and the same files packed by it.

    python archive_file.py ARCHIVE AGAIN MANIFEST_SCHEMA ENTRY_SCHEMA

Fails where a checksum, a size, a line or a shape does not agree. The schemas are judged by
jsonschema, the rest by zipfile, hashlib and json.
"""

import datetime
import hashlib
import json
import sys
import zipfile

import jsonschema

archive, again, *schemas = sys.argv[1:]
judges = []
for path in schemas:
    with open(path, encoding="utf-8") as text:
        schema = json.load(text)
    validator = jsonschema.validators.validator_for(schema)
    validator.check_schema(schema)
    judges.append(validator(schema))
of_manifest, of_entry = judges

with zipfile.ZipFile(archive) as file:
    assert file.testzip() is None
    names = file.namelist()
    assert len(names) == len(set(names))
    content = {name: file.read(name) for name in names}
    for about in file.infolist():
        assert about.date_time == (1980, 1, 1, 0, 0, 0), about
        stored = about.filename.startswith("photos/")
        wanted = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
        assert about.compress_type == wanted, about

manifest = json.loads(content["manifest.json"])
of_manifest.validate(manifest)
assert not of_manifest.is_valid({**manifest, "more": 1})
said = {one["name"]: one for one in manifest["files"]}
assert set(said) | {"manifest.json"} == set(names)
for name, one in said.items():
    assert one["bytes"] == len(content[name]), name
    assert one["sha256"] == hashlib.sha256(content[name]).hexdigest(), name
datetime.datetime.fromisoformat(manifest["made_at"])

lines = content["entries.jsonl"].decode("utf-8").split("\n")
assert lines.pop() == ""
assert len(lines) == manifest["entries"] > 0
for number, line in enumerate(lines, 1):
    entry = json.loads(line)
    of_entry.validate(entry)
    assert not of_entry.is_valid({**entry, "position": "1"})
    assert entry["position"] == number > entry["seen"]
    assert ("body" in entry) != ("body_text" in entry)
    datetime.datetime.fromisoformat(entry["recorded_at"])
    # RFC 9557 is RFC 3339 with the zone's name behind it, which Python does not read.
    datetime.datetime.fromisoformat(entry["happened_at"].split("[")[0])

with zipfile.ZipFile(again, "x", zipfile.ZIP_DEFLATED) as file:
    for name in reversed(names):
        file.writestr(name, content[name])
