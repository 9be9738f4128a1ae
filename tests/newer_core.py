"""A build whose core differs from another's in one module: what a mended figure is, seen from a device."""

from __future__ import annotations

import base64
import hashlib
import json
import marshal
import re
from collections.abc import Mapping

from in_browser import built
from lying_server import PARTS, with_other


def _named(stem: str, content: bytes, ending: str) -> str:
    return f"runtime/{stem}-{hashlib.sha256(content).hexdigest()[:12]}.{ending}"


def _integrity(content: bytes) -> str:
    return "sha256-" + base64.b64encode(hashlib.sha256(content).digest()).decode()


def with_newer_core(site: Mapping[str, bytes], module: str) -> dict[str, bytes]:
    """The site with a byte more at the end of this module, which what reads it passes over."""
    was, was_list, worker = built("core.bin", site), built("core-parts.json", site), built("worker.js", site)
    content = site[was]
    begin = 4 + int.from_bytes(content[:4], "little")
    index = marshal.loads(content[4:begin])
    parts, moved, end = [], {}, 0
    for name, (package, start, stop) in index.items():
        parts.append(content[begin + start : begin + stop] + (b"\0" if name == module else b""))
        moved[name] = (package, end, end := end + len(parts[-1]))
    # In the shape that every Python reads.
    told = marshal.dumps(moved, 2)
    head = len(told).to_bytes(4, "little") + told
    core = b"".join((head, *parts))
    named = _named("core", core, "bin")
    digests = [(hashlib.sha256(part).hexdigest()[:12], part) for part in (head, *parts)]
    listing = json.dumps({"of": named, "parts": [[digest, len(part)] for digest, part in digests]}).encode()
    list_named = _named("core-parts", listing, "json")
    newer = {name: each for name, each in site.items() if name not in (was, was_list)}
    newer |= {named: core, list_named: listing}
    newer |= {f"{PARTS}part-{digest}.bin": part for digest, part in digests}
    told_files = site["service_worker.js"].decode()
    for old, new, each in ((was, named, core), (was_list, list_named, listing)):
        told_files, count = re.subn(
            rf'url:"{re.escape(old)}",revision:"[^"]*",integrity:"[^"]*"',
            f'url:"{new}",revision:"sha256-{hashlib.sha256(each).hexdigest()[:20]}",'
            f'integrity:"{_integrity(each)}"',
            told_files,
        )
        assert count == 1, old
        told_files = told_files.replace(f'parts:"{old}"', f'parts:"{new}"')
    newer["service_worker.js"] = told_files.encode()
    program = site[worker].decode().replace(was.removeprefix("runtime/"), named.removeprefix("runtime/"))
    program = program.replace(_integrity(content), _integrity(core))
    return with_other(newer, worker, program.encode())
