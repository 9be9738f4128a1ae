"""Links thrown together: what is written reads again as the same job, what is damaged opens in few words."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path

import pytest

from in_browser import ROOT

COUNT = 400_000 if os.environ.get("CONEWRIGHT_DEEP") else 4_000
BUNDLER = ROOT / "web" / "node_modules" / "esbuild" / "bin" / "esbuild"


def test_links_thrown_together(tmp_path: Path) -> None:
    node = shutil.which("node")
    if node is None or not BUNDLER.is_file():
        pytest.skip("needs Node and the page's packages: `python3 build.py site` fetches them")
    program = tmp_path / "links.cjs"
    subprocess.run(
        [node, BUNDLER, ROOT / "tests" / "web" / "link_fuzz.ts", f"--outfile={program}", "--bundle",
         "--platform=node", "--log-level=warning"],
        check=True,
    )  # fmt: skip
    done = subprocess.run([node, program, str(COUNT), "13"], capture_output=True, text=True, check=True)
    assert json.loads(done.stdout) == []
