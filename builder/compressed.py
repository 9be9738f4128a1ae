"""Ready-made .br and .gz beside each file of the site, so that a plain server can send them."""

from __future__ import annotations

import hashlib
import json
import shutil
from pathlib import Path

from builder.machine import Node
from builder.places import WORK, files_below
from builder.say import run, step

_STORE = WORK / "compressed"
_SMALL = 600
_ALREADY = (".png", ".woff2", ".jpg", ".br", ".gz")


def ready(file: Path) -> Path:
    """Where the file's content lies compressed, but for the endings .br and .gz, once `write` has seen it."""
    return _STORE / hashlib.sha256(file.read_bytes()).hexdigest()


def write(node: Node, site: Path) -> None:
    """Compress what is worth it; the same content is compressed once and kept by its hash."""
    _STORE.mkdir(parents=True, exist_ok=True)
    wanted: dict[Path, Path] = {}
    for file in files_below(site):
        if file.suffix not in _ALREADY and file.stat().st_size > _SMALL:
            wanted[file] = ready(file)
    fresh = {kept: file for file, kept in wanted.items() if not kept.with_suffix(".gz").is_file()}
    if fresh:
        with step(f"compressing {len(fresh)} files for the wire"):
            # Written under another name first: a build broken off leaves no half file behind.
            jobs = [[str(file), f"{kept}.br", f"{kept}.gz.part"] for kept, file in fresh.items()]
            run(
                [node.node, Path(__file__).parent / "compress.mjs"],
                given=json.dumps(jobs),
                way_out="Is there room on the disk?",
            )
            for kept in fresh:
                Path(f"{kept}.gz.part").rename(f"{kept}.gz")
    for file, kept in wanted.items():
        for ending in (".br", ".gz"):
            shutil.copyfile(f"{kept}{ending}", f"{file}{ending}")
