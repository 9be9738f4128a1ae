"""What a hand does on the page, in whatever engine."""

from __future__ import annotations

import json

from engines.engine import Engine, button, part

JOB = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres={}"
ANSWERED = "document.querySelector('.band-number:enabled') !== null"
STORED = "(document.querySelector('.status')?.textContent ?? '').includes('works without a network')"
NUMBER = ".band[data-lead='setting.stack_height'] .number"


def open_answered(engine: Engine, address: str) -> None:
    """Open an address and wait for the core's answer."""
    engine.open(address)
    engine.wait(ANSWERED, 90)


def number_is(engine: Engine, wanted: str) -> None:
    """Wait until the number in force reads so."""
    engine.wait(f"document.querySelector({json.dumps(NUMBER)})?.textContent === {json.dumps(wanted)}")


def go_to(engine: Engine, place: str) -> None:
    """Tap one of the large actions and wait until the page is there."""
    name = {"Card": "card", "Steps": "lathe", "Change": "change", "Drawer": "shop", "Keep": "kept"}[place]
    there = f"document.querySelector('.page').dataset.place === '{name}'"
    if not engine.evaluate(there):
        # The page's own keys lie over the actions until they are put away.
        if engine.evaluate("document.querySelector('.keypad') !== null"):
            engine.tap(part(".keypad .key", "Hide"))
            engine.wait("document.querySelector('.keypad') === null")
        engine.tap(f"document.querySelector('.dock') && {button(place)}")
        engine.wait(there)


def open_field(engine: Engine, stage: str, name: str) -> str:
    """Open a stage from its line on the card; returns the field's expression."""
    field = f"document.getElementById('field-{name}')"
    go_to(engine, "Card")
    line = part(f".stage-lines [data-stage='{stage}'] .stage-head")
    while not engine.evaluate(f"{field} !== null"):
        # What is shown above may come or go as one taps: then one taps again.
        engine.tap(line)
        engine.evaluate("new Promise((done) => setTimeout(done, 400))")
    return field


def write(engine: Engine, field: str, text: str) -> None:
    """Tap into a field and write over what stands there."""
    engine.tap(field)
    engine.wait(f"document.activeElement === {field}")
    engine.evaluate(f"{field}.select()")
    engine.keys(text)


def keep(engine: Engine, name: str) -> None:
    """Keep the job under a name."""
    go_to(engine, "Keep")
    write(engine, part("#keep-name"), name)
    engine.tap(button("Keep it"))


def kept_names(engine: Engine) -> list[str]:
    """The names in the kept list."""
    return list(engine.evaluate("[...document.querySelectorAll('.kept-name')].map((one) => one.textContent)"))
