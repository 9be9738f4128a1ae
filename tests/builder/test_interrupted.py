"""A build that was broken off never counts as done, and what is served is always whole and of this source."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from own_builder import places, say, site


class BrokenOff(BaseException):
    """What pulling the plug is like: nothing after it runs."""


@pytest.fixture
def project(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small project of one source file, whose site is that file and a runtime."""
    for module in (places, site):
        for name in ("CORE", "CORPUS", "WEB", "DIST", "ROOT", "WORK"):
            if hasattr(module, name):
                folder = {"ROOT": "", "WORK": ".build", "CORE": "calc"}.get(name, name.lower())
                monkeypatch.setattr(module, name, tmp_path / folder)
    for name in ("calc/job.py", "web/index.html", "NOTICES", "tests/generated_requests.py"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("first")
    monkeypatch.setattr(site, "ensure_node", lambda: None)
    monkeypatch.setattr(site, "ensure_packages", lambda node: None)
    monkeypatch.setattr(site, "_assemble", assemble(tmp_path))
    return tmp_path


def assemble(project: Path, break_off: bool = False) -> Callable[[object, Path], None]:
    """Puts the core and a runtime into the site, or breaks off in between."""

    def put(node: object, into: Path) -> None:
        (into / "index.html").write_text("page")
        shutil.copyfile(project / "calc" / "job.py", into / "core")
        if break_off:
            raise BrokenOff
        (into / "runtime").mkdir()
        (into / "runtime" / "python").write_text("python")

    return put


def served(project: Path) -> dict[str, str]:
    dist = project / "dist"
    return {file.relative_to(dist).as_posix(): file.read_text() for file in dist.rglob("*") if file.is_file()}


def whole(core: str) -> dict[str, str]:
    return {"index.html": "page", "core": core, "runtime/python": "python"}


def test_a_build_broken_off_is_not_taken_for_done_and_leaves_the_old_site_whole(
    project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site.build()
    assert served(project) == whole("first")
    (project / "calc" / "job.py").write_text("second")
    with monkeypatch.context() as patch, pytest.raises(BrokenOff):
        patch.setattr(site, "_assemble", assemble(project, break_off=True))
        site.build()
    assert served(project) == whole("first")
    site.build()
    assert served(project) == whole("second")
    assert sorted(file.name for file in (project / ".build").iterdir()) == ["lock", "stamps"]


@pytest.mark.parametrize(
    "harm",
    [
        lambda dist: shutil.rmtree(dist / "runtime"),
        lambda dist: (dist / "core").write_text("another core"),
        lambda dist: (dist / "left_over").write_text("of an earlier build"),
        lambda dist: (dist / "runtime" / "python").write_text(""),
        lambda dist: shutil.rmtree(dist),
    ],
    ids=["no runtime", "another core", "a left-over", "an empty file", "no site"],
)
def test_a_site_that_is_not_what_was_built_is_built_anew(project: Path, harm: Callable[[Path], None]) -> None:
    site.build()
    harm(project / "dist")
    site.build()
    assert served(project) == whole("first")


def test_the_source_going_back_after_a_broken_build_does_not_revive_its_halves(
    project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site.build()
    (project / "calc" / "job.py").write_text("second")
    with monkeypatch.context() as patch, pytest.raises(BrokenOff):
        patch.setattr(Path, "rename", _break_off)
        site.build()
    (project / "calc" / "job.py").write_text("first")
    site.build()
    assert served(project) == whole("first")


def _break_off(*_: object) -> None:
    raise BrokenOff


def test_a_source_that_changes_while_it_is_built_is_said(
    project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put = assemble(project)

    def saved_meanwhile(node: object, into: Path) -> None:
        put(node, into)
        (project / "calc" / "job.py").write_text("second")

    with monkeypatch.context() as patch, pytest.raises(say.Stop, match="changed while the site was made"):
        patch.setattr(site, "_assemble", saved_meanwhile)
        site.build()
    site.build()
    assert served(project) == whole("second")


def test_a_built_site_is_not_built_twice(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    site.build()
    monkeypatch.setattr(site, "_assemble", _break_off)
    site.build()
    assert served(project) == whole("first")


def test_a_step_broken_off_is_forgotten_before_it_begins(project: Path) -> None:
    target = project / "made"
    with places.aside("step", target) as fresh:
        (fresh / "file").write_text("whole")
    places.mark_done("step", "key", target)
    assert places.is_done("step", "key", target) and not places.is_done("step", "other", target)
    with pytest.raises(BrokenOff), places.aside("step", target) as fresh:
        (fresh / "file").write_text("half")
        raise BrokenOff
    assert (target / "file").read_text() == "whole"
    assert not places.is_done("step", "key", target)
