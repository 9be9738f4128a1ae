"""The core in parts beside the core as a whole, so that an update fetches what changed and no more.

A first visit takes the core as one file, which packs best. A device that holds an older core has most of the
newer one already: each module is a part of its own, under a name that holds the hash of its content, and a
list says of which parts the whole is made, in their order. `web/src/offline_store/renewed.ts` puts it
together.
"""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

FOLDER = "parts"
HASH_LETTERS = 12


def write(core: Path, lengths: list[int], name: str) -> Path:
    """Lay the parts into a folder beside the core, and beside it the list that names them.

    lengths: of the parts, in their order [bytes]. name: the core's address in the site. Returns the list.
    """
    content = core.read_bytes()
    if sum(lengths) != len(content):
        raise ValueError(f"the parts of the core are {sum(lengths)} bytes, and the core is {len(content)}")
    folder = core.parent / FOLDER
    folder.mkdir()
    told, begin = [], 0
    for length in lengths:
        part = content[begin : begin + length]
        begin += length
        digest = hashlib.sha256(part).hexdigest()[:HASH_LETTERS]
        (folder / f"part-{digest}.bin").write_bytes(part)
        told.append([digest, length])
    listed = core.parent / "core-parts.json"
    listed.write_text(json.dumps({"of": name, "parts": told}, separators=(",", ":")), "utf-8")
    return listed
