"""Reading what is typed of blue: over how much it shows, and how thick the film is.

A share may be told in words (a quarter, half), as a part (0.4, 40 %, 2/5) or as a length along the taper; a
film as thin, thick or its thickness."""

from __future__ import annotations

from fractions import Fraction

from calc.quantities import Reading, Unreadable, read_length, read_rate

THIN, THICK = 0.003, 0.008
"""Films [mm]: thin, through which metal shines, and thick. Common practice, no source."""
PARTS = {
    "quarter": (Fraction(1, 4), "quarter"),
    "half": (Fraction(1, 2), "half"),
    "three quarters": (Fraction(3, 4), "three quarters"),
    "all": (Fraction(1), "all"),
    "whole": (Fraction(1), "all"),
    "third": (Fraction(1, 3), "third"),
    "two thirds": (Fraction(2, 3), "two thirds"),
}
THINNEST, THICKEST = 0.0002, 0.1
"""Films [mm] that make sense."""
OFFERS = ("quarter", "40 %", "half", "three quarters", "all")


def read_share(text: str) -> Reading:
    """A part of the length from 0 to 1, or a length, above 1 [mm]. Raises Unreadable."""
    plain = " ".join(text.strip().casefold().removeprefix("over ").split())
    word = (
        plain.removeprefix("a ").removesuffix(" of it").removesuffix(" along").removesuffix(" of the length")
    )
    if word in PARTS:
        exact, understood = PARTS[word]
        return Reading(exact, float(exact), understood)
    if plain.endswith("%"):
        part = read_rate(plain, "ratio")
        return _share(text, part.exact)
    try:
        length = read_length(text, "mm")
    except Unreadable as error:
        raise Unreadable(
            text, error.start, error.end, error.message, "Say a part of the length, or a length.", OFFERS
        ) from error
    if all(letter in "0123456789.,/ " for letter in plain):
        if length.exact > 1:
            raise Unreadable(
                text, 0, len(text), "A share of the length is at most 1", "For a length say its unit.", OFFERS
            )
        return _share(text, length.exact)
    if length.value <= 1.0:
        raise Unreadable(
            text, 0, len(text), f"Blue over {length.understood} says nothing", "Look again.", OFFERS
        )
    return length


def _share(text: str, part: Fraction) -> Reading:
    if not 0 < part <= 1:
        raise Unreadable(
            text,
            0,
            len(text),
            "A share lies between nothing and all",
            "From 1 % to 100 % of the length.",
            OFFERS,
        )
    percent = f"{float(100 * part):.6g} %"
    return Reading(part, float(part), percent)


def read_film(text: str) -> Reading:
    """The film's thickness [mm]; below 0 for thin and thick, which say only about how thick. Raises
    Unreadable.
    """
    plain = text.strip().casefold()
    if plain in ("thin", "thick"):
        value = -(THIN if plain == "thin" else THICK)
        return Reading(Fraction(str(value)), value, plain)
    try:
        film = read_length(text, "mm")
    except Unreadable as error:
        raise Unreadable(
            text, error.start, error.end, error.message, "Thin, thick, or its thickness.", ("thin", "thick")
        ) from error
    if all(letter in "0123456789.,/ " for letter in plain):
        raise Unreadable(
            text,
            0,
            len(text),
            "A film's thickness needs its unit",
            "Thin, thick, or such as 0.003 mm.",
            ("thin", "thick"),
        )
    if not THINNEST <= film.value <= THICKEST:
        raise Unreadable(
            text,
            0,
            len(text),
            f"{film.understood} is no film of blue",
            "From 0.0002 mm (0.00001 in) to 0.1 mm (0.004 in); thin or thick will do.",
            ("thin", "thick"),
        )
    return film
