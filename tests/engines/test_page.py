"""The page's own ways in Chromium, Firefox and WebKit: start, type, keep, link, shed, newer version."""

from __future__ import annotations

import base64
import json
import math
import urllib.error
import urllib.request
import zlib
from pathlib import Path

import pytest

from engines.engine import Engine, button, part
from engines.hands import (
    ANSWERED,
    JOB,
    STORED,
    go_to,
    keep,
    kept_names,
    number_is,
    open_answered,
    open_field,
    write,
)
from in_browser import DIST
from laid_site import Site
from lying_server import LyingServer, site_of

pytestmark = pytest.mark.deep

PICTURES = Path(__file__).resolve().parents[2] / ".build" / "pictures"


def _stack(rate: float, centres: float) -> str:
    """The height under a bar set to a taper's half angle, by the sine, as the page writes it [mm]."""
    return f"{centres * math.sin(math.atan(1 / rate / 2)):.4f}"


def test_it_starts_answers_and_takes_what_is_typed_on_either_keys(engine: Engine, site: Site) -> None:
    open_answered(engine, site.address)
    # Morse 2 is 1:20.020 on diameter, Morse 3 1:19.922 (ISO 296).
    number_is(engine, _stack(20.020, 100))
    assert "every figure invented" in engine.text(".demo")
    engine.tap(button("Start mine"))
    engine.tap(button("Morse 3"))
    engine.tap(button("4 in sine bar"))
    number_is(engine, _stack(19.922, 101.6))
    assert engine.evaluate("document.querySelector('.demo')") is None

    # By a keyboard, with what is wrong and what is mixed.
    engine.evaluate("localStorage.setItem('conewright-keys', 'device')")
    engine.reload()
    engine.wait(ANSWERED, 90)
    field = open_field(engine, "setting", "setting.bar_centres")
    write(engine, field, "4.2mm drill and")
    engine.wait(f"{field}.getAttribute('aria-invalid') === 'true'")
    write(engine, field, "100mm + 1in")
    # 100 + 25.4, exactly.
    engine.wait("document.querySelector(\"[data-field='setting.bar_centres']\").innerText.includes('125.4')")
    number_is(engine, _stack(19.922, 125.4))
    assert engine.evaluate(f"document.activeElement === {field}")

    # By the page's own keys.
    engine.evaluate("localStorage.setItem('conewright-keys', 'own')")
    engine.reload()
    engine.wait(ANSWERED, 90)
    field = open_field(engine, "setting", "setting.bar_centres")
    engine.tap(field)
    engine.wait("document.querySelector('.keypad') !== null")
    engine.evaluate(f"{field}.select()")
    for key in ("5", "⌫", "1", "2", "7"):
        engine.tap(part(".keypad .key", "delete") if key == "⌫" else part(".keypad .key", key))
    engine.tap(part(".keypad .key", "mm"))
    assert engine.evaluate(f"{field}.value") == "127 mm"
    number_is(engine, _stack(19.922, 127))
    assert engine.evaluate(f"document.activeElement === {field}")
    engine.tap(part(".keypad .key", "Hide"))
    engine.wait("document.querySelector('.keypad') === null")


def test_a_set_up_is_kept_once_and_is_there_after_a_reload(engine: Engine, site: Site) -> None:
    open_answered(engine, site.address + JOB.format("100mm"))
    keep(engine, "short bar")
    engine.wait("document.querySelector('.kept-name') !== null", 5)
    # A second tap on the same keeps nothing twice.
    write(engine, part("#keep-name"), "short bar")
    engine.tap(button("Keep it"))
    engine.wait("document.querySelector('#keep-name').value === ''")
    assert kept_names(engine) == ["short bar"]

    engine.open(site.address + JOB.format("127mm").replace("size=2", "size=3"))
    number_is(engine, _stack(19.922, 127))
    engine.reload()
    engine.wait(ANSWERED, 90)
    number_is(engine, _stack(19.922, 127))
    go_to(engine, "Keep")
    engine.wait("document.querySelector('.kept-name') !== null")
    assert kept_names(engine) == ["short bar"]
    engine.tap(part(".kept-open", "short bar"))
    number_is(engine, _stack(20.020, 100))

    # What was typed in the very moment before a reload is there after it.
    field = open_field(engine, "setting", "setting.bar_centres")
    write(engine, field, "4in")
    engine.reload()
    engine.wait(ANSWERED, 90)
    number_is(engine, _stack(20.020, 101.6))


def test_a_link_opens_plain_and_packed_and_is_handed_on(engine: Engine, site: Site) -> None:
    pieces = "&piece=4.2+drill|round|4.2mm|4.187mm|0.002mm|1&piece=leaf+½|leaf|0.3mm|||2"
    plain = JOB.format("5in") + pieces
    deflate = zlib.compressobj(9, wbits=-15)
    squeezed = deflate.compress(plain[1:].encode()) + deflate.flush()
    packed = "#z=" + base64.urlsafe_b64encode(squeezed).decode().rstrip("=")
    for link in (plain, packed):
        open_answered(engine, site.address + link)
        number_is(engine, _stack(20.020, 127))
        assert "Morse 2" in engine.text(".band-title")
        go_to(engine, "Drawer")
        engine.wait("document.querySelectorAll('.piece-row').length === 2")
        assert "leaf ½" in engine.text(".pieces, .shop")
        assert engine.evaluate("document.querySelector('.troubles')") is None
        # A link pasted over the open page, and back from it.
        engine.evaluate("location.hash = '#format=1&units=mm&taper.series=Morse&taper.size=3'")
        engine.wait("document.querySelector('.band-title').textContent.includes('Morse 3')")
        engine.evaluate("history.back()")
        engine.wait("document.querySelector('.band-title').textContent.includes('Morse 2')")

    go_to(engine, "Keep")
    engine.tap(button("Show a code"))
    engine.wait("document.querySelector('.code') !== null")
    engine.tap(part(".share .segment", "drawer"))
    engine.tap(part(".share button", "Copy"))
    engine.wait("document.querySelector('.share .said').textContent !== ''")
    by_hand = engine.evaluate("document.querySelector('.share textarea')?.value")
    if by_hand is not None:
        open_answered(engine, str(by_hand))
        number_is(engine, _stack(20.020, 127))


def test_it_works_with_the_server_dead(engine: Engine, site: Site) -> None:
    open_answered(engine, site.address + JOB.format("100mm"))
    if not engine.evaluate("'serviceWorker' in navigator"):
        pytest.skip(f"{engine.name} has no service workers here: it cannot keep the page by itself")
    engine.wait(STORED, 60)
    # Whether the browser offers to install the page shows a while after it stands: put away for good.
    engine.tap(button("Put this away"))
    engine.wait(f"!({button('Put this away')})")
    card = engine.text("main")
    site.end()
    with pytest.raises(urllib.error.URLError):
        urllib.request.urlopen(site.address, timeout=5)
    engine.reload()
    engine.wait(ANSWERED, 90)
    engine.wait(f"document.querySelector('main').innerText === {json.dumps(card)}")
    engine.wait(STORED)
    # Another job, by an address below, typed on, and what is loaded only when asked for.
    engine.open(site.address + "kept/link" + JOB.format("127mm"))
    engine.wait(ANSWERED, 90)
    number_is(engine, _stack(20.020, 127))
    assert str(engine.evaluate("location.href")).startswith(site.address + "#")
    field = open_field(engine, "setting", "setting.bar_centres")
    write(engine, field, "4in")
    number_is(engine, _stack(20.020, 101.6))
    go_to(engine, "Keep")
    engine.tap(button("Show a code"))
    engine.wait("document.querySelector('.code') !== null")


def test_a_newer_version_is_offered_and_loses_nothing(engine: Engine, site: Site) -> None:
    open_answered(engine, site.address + JOB.format("100mm"))
    engine.wait(STORED, 60)
    site.make_newer()
    offered = "document.querySelector('.update') !== null"
    newer = "document.title.startsWith('Newer')"
    assert engine.evaluate(offered) is False
    engine.evaluate("navigator.serviceWorker.ready.then((here) => here.update()).then(() => true)")
    engine.wait(offered)
    assert engine.evaluate(newer) is False
    # Not forced by a reload.
    engine.reload()
    engine.wait(offered)
    assert engine.evaluate(newer) is False
    engine.wait(ANSWERED, 90)
    field = open_field(engine, "setting", "setting.bar_centres")
    write(engine, field, "4.2mm + 6thou")
    engine.evaluate("document.activeElement.blur()")
    engine.tap(button("Change over"))
    engine.wait(f"{newer} && {ANSWERED}", 90)
    assert engine.evaluate(f"({offered})") is False
    engine.wait(STORED, 60)
    field = open_field(engine, "setting", "setting.bar_centres")
    assert engine.evaluate(f"{field}.value") == "4.2mm + 6thou"


def test_a_reload_that_is_slow_to_come_loses_nothing(engine: Engine) -> None:
    """The page goes on while the new one is on its way, and its address too; the browser loads the old."""
    server = LyingServer(site_of(DIST))
    try:
        server.lies = {"service_worker.js": "gone"}
        open_answered(engine, server.address + JOB.format("100mm"))
        server.lies["index.html"] = "late"
        for text in ("127 mm", "4in"):
            field = open_field(engine, "setting", "setting.bar_centres")
            write(engine, field, text)
            engine.reload()
            engine.wait(ANSWERED, 90)
            field = open_field(engine, "setting", "setting.bar_centres")
            assert engine.evaluate(f"{field}.value") == text
            assert "in place of your last job" not in engine.text()
    finally:
        server.end()


SEEN = """(() => {
  const faults = [];
  const wide = document.documentElement.scrollWidth;
  if (wide > innerWidth) faults.push(`the page is ${wide} px wide`);
  const name = (one) => `${one.className || one.tagName} ${one.textContent.trim().slice(0, 30)}`;
  const hit = 'button, input:not([type=radio], [type=checkbox]), select, a';
  for (const one of document.querySelectorAll(hit)) {
    const { width, height, left, right } = one.getBoundingClientRect();
    if (width === 0 || getComputedStyle(one).position === 'absolute') continue;
    if (height < 47.5 && one.tagName !== 'A') faults.push(`${name(one)} is ${height} px high`);
    if (left < -1 || right > innerWidth + 1) faults.push(`${name(one)} ends at ${right} px`);
    if (one.scrollWidth > one.clientWidth + 1 && one.tagName === 'BUTTON') faults.push(`${name(one)} is cut`);
  }
  for (const one of document.querySelectorAll('.term')) {
    const line = getComputedStyle(one);
    const drawn = `${line.textDecorationLine} ${line.textDecorationStyle}`;
    if (drawn !== 'underline dotted') faults.push(`${name(one)} is marked by ${drawn}`);
  }
  const dock = document.querySelector('.dock')?.getBoundingClientRect();
  if (!dock || Math.abs(dock.bottom - innerHeight) > 12) faults.push(`the actions end at ${dock?.bottom} px`);
  return faults;
})()"""


def test_every_place_is_whole_on_a_phone(engine: Engine, site: Site) -> None:
    """Also laid as pictures into .build/pictures, to be looked at."""
    open_answered(engine, site.address)
    assert engine.evaluate("[innerWidth, innerHeight]") == [360, 740]
    marked = 0
    for place in ("Card", "Steps", "Card", "Change", "Drawer", "Keep"):
        go_to(engine, place)
        marked += int(engine.evaluate("document.querySelectorAll('.term').length"))
        engine.evaluate("document.fonts.ready.then(() => scrollTo(0, 0))")
        engine.shown(PICTURES, place.lower())
        assert engine.evaluate(SEEN) == [], place
    assert marked > 0
    number = engine.evaluate("parseFloat(getComputedStyle(document.querySelector('.band .number')).fontSize)")
    assert number >= 24
