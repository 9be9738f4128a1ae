"""The core answers the same text everywhere: CPython here, every newer one to be had, and three engines."""

from __future__ import annotations

import glob
import json
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import calc
from calc.job import work_text
from engines.engine import Engine
from engines.hands import open_answered
from engines.requests import MANY, answered, asked, difference
from in_browser import START_WORKER
from laid_site import Site
from published_requests import published_requests

pytestmark = pytest.mark.deep

AT_ONCE = 5
"""Questions that go to the engine together: few enough to be answered well within its patience."""

ASK = """Promise.all(%s.map(async (one) => {
  const answer = new TextEncoder().encode(await self.askCore(one));
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', answer));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}))"""


@pytest.fixture(scope="session")
def texts() -> list[str]:
    return asked()


@pytest.fixture(scope="session")
def ours(texts: list[str]) -> list[str]:
    return answered(texts)


def test_every_published_row_is_asked_and_read(texts: list[str]) -> None:
    """A row whose texts the core could not read would compare nothing."""
    for text in published_requests():
        sheet = json.loads(work_text(text))
        assert sheet["problems"] == [], text
        wrong = [field for stage in sheet["stages"] for field in stage["fields"] if field["wrong"]]
        assert [(field["id"], field["wrong"]) for field in wrong] == [], text
        assert any(stage["figures"] for stage in sheet["stages"]), text
    assert len(texts) > MANY + 200


def test_the_same_digits_in_the_engine(
    engine: Engine, site: Site, texts: list[str], ours: list[str]
) -> None:
    open_answered(engine, site.address)
    engine.evaluate(f"({START_WORKER})().then(() => true)", 60)
    for begin in range(0, len(texts), AT_ONCE):
        some = texts[begin : begin + AT_ONCE]
        theirs = engine.evaluate(ASK % json.dumps(some), 60)
        for text, hash_here, hash_there in zip(some, ours[begin:], theirs, strict=False):
            if hash_here != hash_there:
                there = str(engine.evaluate(f"self.askCore({json.dumps(text)})", 60))
                pytest.fail(f"for {text[:1500]}\n{difference(work_text(text), there)}")
        assert len(theirs) == len(some)


def _newer_pythons() -> dict[str, str]:
    """Programs of a newer Python than this one by their versions: on the path, or where tools put them."""
    found = [path for minor in range(12, 20) if (path := shutil.which(f"python3.{minor}"))]
    for place in (".pyenv/versions/*/bin/python3", ".local/share/uv/python/*/bin/python3"):
        found += glob.glob(str(Path.home() / place))
    versions: dict[str, str] = {}
    ask = "import sys; print('%d.%d.%d' % sys.version_info[:3] if sys.version_info > (3, 11) else '')"
    for path in found:
        told = subprocess.run([path, "-c", ask], capture_output=True, text=True).stdout.strip()
        if told and tuple(map(int, told.split(".")[:2])) > sys.version_info[:2]:
            versions[told] = path
    return versions


HASHES = """
import hashlib, json, sys
sys.path.append(sys.argv[1])
from calc.job import work_text
answers = map(work_text, json.load(sys.stdin))
json.dump([hashlib.sha256(one.encode()).hexdigest() for one in answers], sys.stdout)
"""


def test_the_same_digits_on_the_newest_python(texts: list[str], ours: list[str], tmp_path: Path) -> None:
    pythons = _newer_pythons()
    if not pythons:
        pytest.skip("no newer Python is here; `uv python install 3.14` would bring one")
    newest = max(pythons, key=lambda version: tuple(map(int, version.split("."))))
    # Nothing but the core lies there: what belongs to this Python must not be found by that one.
    (tmp_path / "calc").symlink_to(Path(str(calc.__file__)).parent)
    done = subprocess.run(
        [pythons[newest], "-I", "-B", "-c", HASHES, str(tmp_path)],
        input=json.dumps(texts), capture_output=True, text=True, timeout=3600,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-3000:]
    theirs = json.loads(done.stdout)
    different = [text for text, one, other in zip(texts, ours, theirs, strict=True) if one != other]
    assert different == [], f"Python {newest} answers otherwise"
