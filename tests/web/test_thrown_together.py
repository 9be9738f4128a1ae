"""Links and builds thrown together, in Node: what is written reads again, what is damaged does no harm."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from in_browser import ROOT

DEEP = bool(os.environ.get("CONEWRIGHT_DEEP"))
BUNDLER = ROOT / "web" / "node_modules" / "esbuild" / "bin" / "esbuild"


@pytest.mark.parametrize(
    ("name", "count"), [("link_fuzz", 400_000 if DEEP else 4_000), ("renewed_fuzz", 20_000 if DEEP else 400)]
)
def test_thrown_together(tmp_path: Path, name: str, count: int) -> None:
    """Each program tells the faults it found; it says itself what must hold."""
    node = shutil.which("node")
    if node is None or not BUNDLER.is_file():
        pytest.skip("needs Node and the page's packages: `python3 build.py site` fetches them")
    program = tmp_path / "program.mjs"
    subprocess.run(
        [node, BUNDLER, ROOT / "tests" / "web" / f"{name}.ts", f"--outfile={program}", "--bundle",
         "--platform=node", "--format=esm", "--log-level=warning"],
        check=True,
    )  # fmt: skip
    done = subprocess.run([node, program, str(count), "13"], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout) == []
