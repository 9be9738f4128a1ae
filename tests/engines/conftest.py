"""The page in three engines: each test opens it in each, with a server and a profile of its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from engines.chromium import Chromium
from engines.engine import Engine, missing
from engines.firefox import Firefox
from engines.webkit import WebKit
from laid_site import Site, laid

KINDS: dict[str, Callable[..., Chromium | Firefox | WebKit]] = {
    "chromium": Chromium,
    "firefox": Firefox,
    "webkit": WebKit,
}
Start = Callable[..., Engine]


@pytest.fixture
def start(tmp_path: Path) -> Iterator[Start]:
    """Starts an engine by its name; where it is not here the test is skipped, and says what to type."""
    started: list[Engine] = []

    def begin(name: str, **words: object) -> Engine:
        lack = missing(name)
        if lack:
            pytest.skip(lack)
        started.append(Engine(name, KINDS[name](tmp_path / f"profile-{len(started)}", **words)))
        return started[-1]

    yield begin
    for engine in started:
        engine.end()


@pytest.fixture(params=KINDS)
def engine(request: pytest.FixtureRequest, start: Start) -> Engine:
    """One page in each engine in turn."""
    return start(request.param)


@pytest.fixture
def site(tmp_path: Path) -> Iterator[Site]:
    """The built page on a server of its own."""
    yield from laid(tmp_path)
