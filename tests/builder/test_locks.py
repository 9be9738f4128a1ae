"""What is installed is what the locks name, whatever a registry may answer one day."""

from __future__ import annotations

import re
import tomllib

import pytest

from own_builder import ROOT

EXTRAS: dict[str, list[str]] = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"][
    "optional-dependencies"
]


def locked(extra: str) -> dict[str, list[str]]:
    """Each pin of a lock, with its hashes."""
    text = (ROOT / "requirements" / f"{extra}.txt").read_text("utf-8").replace("\\\n", " ")
    found: dict[str, list[str]] = {}
    for line in text.splitlines():
        pin, *hashes = re.split(r"\s+--hash=", line.strip())
        found[pin.strip()] = [each.strip() for each in hashes]
    return found


def test_there_is_a_lock_for_every_extra() -> None:
    assert {file.stem for file in (ROOT / "requirements").iterdir()} == set(EXTRAS)


@pytest.mark.parametrize("extra", sorted(EXTRAS))
def test_every_package_is_pinned_with_its_hashes_and_no_address(extra: str) -> None:
    for pin, hashes in locked(extra).items():
        assert re.fullmatch(r"[a-z0-9-]+==[0-9.]+( ; [a-z_]+ [<>=!]+ '[\w.]+')?", pin), pin
        assert hashes and all(re.fullmatch(r"sha256:[0-9a-f]{64}", each) for each in hashes), pin


@pytest.mark.parametrize("extra", sorted(EXTRAS))
def test_the_lock_holds_just_what_the_extra_names(extra: str) -> None:
    pins = [re.split(r"\s*;", pin)[0] for pin in locked(extra)]
    for line in EXTRAS[extra]:
        assert line.split(";")[0].lower() in pins, f"{line} is not in requirements/{extra}.txt: make it anew"


def test_no_lock_names_what_comes_as_source_alone() -> None:
    """Wheels alone are installed: a package without one stops the whole (here a helper of HTML reports)."""
    for extra in EXTRAS:
        assert not [pin for pin in locked(extra) if pin.startswith("yattag==")], extra
