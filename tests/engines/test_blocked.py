"""A browser that asks the person before it keeps, one in a private window, and those told to keep nothing."""

from __future__ import annotations

import pytest

from engines.conftest import Start
from engines.engine import Engine, button, part
from engines.hands import ANSWERED, JOB, go_to, keep, kept_names, number_is, open_answered, open_field, write
from laid_site import Site

pytestmark = pytest.mark.deep


def test_keeping_waits_for_no_permission(start: Start, site: Site) -> None:
    """Firefox asks the person whether the page may keep things for good, and answers only then."""
    engine = start("firefox")
    open_answered(engine, site.address + JOB.format("100mm"))
    keep(engine, "asked")
    engine.wait("document.querySelector('.kept-name') !== null", 5)
    # The question does stand open: nobody answers it here.
    told = "navigator.storage.persist().then(() => 'answered')"
    wait = "new Promise((done) => setTimeout(() => done('open'), 1500))"
    assert engine.evaluate(f"Promise.race([{told}, {wait}])") == "open"
    assert "Kept: asked" in engine.text(".kept")
    engine.tap(button("Keep it"))
    engine.tap(button("Keep it"))
    engine.reload()
    engine.wait(ANSWERED, 90)
    go_to(engine, "Keep")
    engine.wait("document.querySelector('.kept-name') !== null")
    # Without a name of its own it takes the job's line; the second tap on it keeps nothing.
    assert len(kept_names(engine)) == 2
    assert kept_names(engine)[1] == "asked"


BLOCKED = {
    "firefox": {"network__cookie__cookieBehavior": 2},
    "chromium": {"blocked": True},
}
"""How each is told to keep no site data; WebKit's driver has no way to say so."""


def _is_blocked(engine: Engine) -> bool:
    ask = "(() => { try { return localStorage.length < 0; } catch { return true; } })()"
    return engine.evaluate(ask) is True


@pytest.mark.parametrize("name", BLOCKED)
def test_with_site_data_blocked_it_works_and_says_so(name: str, start: Start, site: Site) -> None:
    engine = start(name, **BLOCKED[name])
    open_answered(engine, site.address)
    assert _is_blocked(engine)
    engine.tap(button("Start mine"))
    engine.tap(button("Morse 3"))
    engine.tap(button("4 in sine bar"))
    # 101.6 sin(atan(1 / 2 / 19.922)); Morse 3 is 1:19.922 on diameter (ISO 296).
    number_is(engine, "2.5491")
    field = open_field(engine, "setting", "setting.bar_centres")
    write(engine, field, "5in")
    number_is(engine, "3.1864")
    keep(engine, "mine")
    engine.wait("document.querySelector('.kept .fault') !== null")
    assert "refuses to store" in engine.text(".kept .fault")
    assert kept_names(engine) == []
    # The address holds the job, over a reload too.
    engine.wait("location.hash.includes('setting.bar_centres=5in')")
    engine.reload()
    engine.wait(ANSWERED, 90)
    number_is(engine, "3.1864")
    go_to(engine, "Keep")
    engine.tap(button("Show a code"))
    engine.wait("document.querySelector('.code') !== null")
    go_to(engine, "Card")
    engine.tap(part(".menu-button"))
    engine.wait("document.querySelector('#menu') !== null")
    engine.tap(button("New job"))
    engine.tap(button("Morse 2"))
    engine.wait("document.querySelector('.start') !== null || document.querySelector('.band-title') !== null")


def test_in_a_private_window_it_works_keeps_and_says_how_it_is_stored(start: Start, site: Site) -> None:
    """Firefox keeps there until the window goes; Chromium's phones of all other tests are such windows."""
    engine = start("firefox", browser__privatebrowsing__autostart=True)
    open_answered(engine, site.address + JOB.format("100mm"))
    number_is(engine, "2.4967")
    keep(engine, "private")
    engine.wait("document.querySelector('.kept-name') !== null")
    engine.reload()
    engine.wait(ANSWERED, 90)
    go_to(engine, "Keep")
    engine.wait("document.querySelector('.kept-name') !== null")
    assert kept_names(engine) == ["private"]
    # It is said to be stored only where a service worker says so, and never where the window has none.
    go_to(engine, "Card")
    engine.tap(part(".menu-button"))
    engine.wait("document.querySelector('#menu') !== null")
    if engine.evaluate("'serviceWorker' in navigator"):
        engine.wait("document.querySelector('#menu').textContent.includes('Stored on this device')", 60)
        active = "navigator.serviceWorker.getRegistration().then((one) => one?.active != null)"
        assert engine.evaluate(active) is True
    else:
        assert "Stored on this device" not in engine.text("#menu")
