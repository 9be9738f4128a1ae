"""A hand at the page: what a person does with it, and what the store really holds."""

from __future__ import annotations

import json
import random
import time
from typing import Any
from urllib.parse import parse_qs

from playwright.sync_api import BrowserContext, CDPSession, Page, expect

from page_parts import entry, go_to
from person.model import Model, SetUp

MINE = "#format=1&units=mm&taper.series=Morse&taper.size=2&setting.bar_centres=100+mm"
# The clock of every page runs on from where a cookie sets it, which no clearing of the store touches.
CLOCK = """(() => {
    const Real = Date;
    const shift = () => Number(/(?:^|; )shift=(-?\\d+)/.exec(document.cookie)?.[1] ?? 0);
    self.Date = class extends Real {
        constructor(...told) { if (told.length) super(...told); else super(Real.now() + shift()); }
        static now() { return Real.now() + shift(); }
    };
})()"""
# Read beside the page, with a limit of its own: a store that hangs is a fault, not a wait.
READ = """(key) => Promise.race([
    new Promise((_, late) => setTimeout(() => late(new Error("the store hangs")), 8000)),
    new Promise((done, failed) => {
        const opening = indexedDB.open("keyval-store");
        opening.onerror = () => failed(opening.error);
        opening.onupgradeneeded = () => opening.result.createObjectStore("keyval");
        opening.onsuccess = () => {
            const base = opening.result;
            const asked = base.transaction("keyval").objectStore("keyval").get(key);
            asked.onerror = () => failed(asked.error);
            asked.onsuccess = () => { base.close(); done(asked.result ?? null); };
        };
    }),
])"""


def length_in(address: str) -> str:
    """The length of the taper that an address holds."""
    return parse_qs(address.split("#")[-1], keep_blank_values=True).get("taper.length", [""])[0]


class Hand:
    """One person, one phone, several pages after one another."""

    def __init__(
        self, phone: BrowserContext, address: str, chance: random.Random, answered: bool = False
    ) -> None:
        """`answered`: what it types can be worked out to the end; else it is too long for its taper."""
        self.answered = answered
        self.phone, self.address, self.chance = phone, address, chance
        self.model = Model()
        phone.add_init_script(CLOCK)
        self.page = phone.new_page()
        self.page.goto(address + MINE)
        self.ready()

    def ready(self, page: Page | None = None) -> None:
        """The page answers to taps."""
        expect((page or self.page).locator(".dock")).to_be_visible()

    def wire(self) -> CDPSession:
        """The browser's own tools, for what no page can do to itself."""
        return self.phone.new_cdp_session(self.page)

    def store(self, key: str) -> Any:
        """What the store holds under this key, read beside the page."""
        return self.page.evaluate(READ, key)

    def kept_really(self) -> list[SetUp]:
        """The kept list as it lies in the store."""
        raw = self.store("kept") or []
        return [SetUp(one["name"], length_in(one["hash"])) for one in raw if one.get("format") == 1]

    def typed(self) -> str:
        """What stands in the field of the length."""
        go_to(self.page, "Change")
        field = entry(self.page, "taper.length")
        # The core has to have started, on a machine that may do much else.
        expect(field, self.model.told()).to_be_visible(timeout=120_000)
        return field.input_value()

    def type_length(self) -> None:
        """A length that no other job has."""
        number = self.model.number()
        text = f"{30 + number / 1000:.3f} mm" if self.answered else f"{number + 2000} mm"
        go_to(self.page, "Change")
        entry(self.page, "taper.length").fill(text)
        self.model.length = text
        self.model.said.append(f"typed {text}")

    def open_list(self) -> None:
        """The kept list, and what the page says of it."""
        go_to(self.page, "Keep")
        expect(self.page.locator("#keep-name")).to_be_visible()

    def begin_keeping(self, name: str) -> None:
        """Tap Keep with this name; nothing is waited for."""
        self.open_list()
        self.page.locator("#keep-name").fill(name)
        self.page.get_by_role("button", name="Keep it").tap()

    def keep(self) -> None:
        """Keep the job in hand, and be told so."""
        name = f"set-up {self.model.number()}"
        self.begin_keeping(name)
        expect(self.page.locator(".kept .said").first).to_contain_text(f"Kept: {name}")
        self.model.kept.insert(0, SetUp(name, self.model.length))
        self.model.said.append(f"kept {name}")

    def act(self, name: str, what: str) -> None:
        """One of the acts on a kept set-up."""
        self.open_list()
        if self.page.get_by_role("button", name=f"{what}: {name}", exact=True).count() == 0:
            self.page.get_by_role("button", name=f"More: {name}", exact=True).tap()
        self.page.get_by_role("button", name=f"{what}: {name}", exact=True).tap()

    def again(self) -> None:
        """The page is gone; another is opened without an address, as from the home screen."""
        self.page.close()
        self.page = self.phone.new_page()
        self.page.goto(self.address)
        self.ready()

    def pieces_really(self) -> list[str]:
        """The pieces as they lie in the store, or in what is written in a hurry until the store has them."""
        stored = self.store("shop")
        jotted = json.loads(self.page.evaluate("localStorage.getItem('conewright-shop')") or "null")
        if stored and jotted and jotted.get("blind"):
            jotted = None  # by a page that could not see what is stored: it only adds to it
        shop = max(filter(None, (stored, jotted)), key=lambda each: each["at"], default=None)
        return [piece["name"] for piece in shop["drawer"]] if shop else []

    def check(self) -> None:
        """List, store and job are what the model says."""
        model = self.model
        self.open_list()
        names = self.page.locator(".kept-name")
        expect(names, model.told()).to_have_text([one.name for one in model.kept])
        assert self.kept_really() == model.kept, model.told()
        assert self.typed() == model.length, model.told()
        until = time.monotonic() + 20.0
        while self.pieces_really() != model.pieces:
            assert time.monotonic() < until, (self.pieces_really(), model.pieces, model.told())
            time.sleep(0.1)

    def audit(self) -> None:
        """At the end every set-up is opened, and holds what was kept in it."""
        self.again()
        self.check()
        for one in self.model.kept:
            self.open_list()
            self.page.locator(".kept-name").get_by_text(one.name, exact=True).tap()
            expect(self.page.locator(".page")).to_have_attribute("data-place", "card")
            self.model.length = one.length
            assert self.typed() == one.length, one
        shop = self.store("shop") or {"drawer": []}
        assert [piece["name"] for piece in shop["drawer"]] == self.model.pieces, self.model.told()
