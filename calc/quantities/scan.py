"""Text to tokens: numbers, words and signs, each with its place in the text as typed.

One pass, one character after the other, so the time grows with the length of the text and never faster.
Typographic forms of one sign (minus, primes, fraction slash, hard spaces, digits of other scripts) become the
plain one; every replacement is one character for one, which keeps the places right.
"""

from __future__ import annotations

from typing import NamedTuple

from .reading import Unreadable

LONGEST = 1000
"""Longest text looked at [characters]; anything beyond is no measurement."""

VULGAR = {
    "½": (1, 2),
    "⅓": (1, 3),
    "⅔": (2, 3),
    "¼": (1, 4),
    "¾": (3, 4),
    "⅕": (1, 5),
    "⅖": (2, 5),
    "⅗": (3, 5),
    "⅘": (4, 5),
    "⅙": (1, 6),
    "⅚": (5, 6),
    "⅐": (1, 7),
    "⅛": (1, 8),
    "⅜": (3, 8),
    "⅝": (5, 8),
    "⅞": (7, 8),
    "⅑": (1, 9),
    "⅒": (1, 10),
}

_PLAIN = {
    **dict.fromkeys("−–‐‑‒—﹣-", "-"),
    **dict.fromkeys("′’‘´`ʹ′", "'"),
    **dict.fromkeys("″“”„ʺ″", '"'),
    **dict.fromkeys("⁄∕÷／", "/"),
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("∶：", ":"),
    **dict.fromkeys("µμ", "u"),
    "＋": "+",
    "．": ".",
    "，": ",",
    "٫": ",",
    "％": "%",
    "＃": "#",
    "№": "#",
}
_DIGITS = "0123456789"


class Token(NamedTuple):
    """A piece of the text: `kind` is number, vulgar, word, sign or end; `text` its plain lower-case form."""

    kind: str
    text: str
    start: int
    end: int
    spaced: bool
    """True where a space stands before it."""


def _plain(character: str) -> str:
    if character < "\x7f":
        return " " if character < " " else character.lower()
    if character in _PLAIN:
        return _PLAIN[character]
    if character.isspace() or character in "\u200b\u2060\ufeff\u200e\u200f\x7f":
        return " "
    if character.isdecimal():
        return str(int(character))
    lower = character.lower()
    return lower if len(lower) == 1 else character


def plain_text(text: str) -> str:
    """The text with every sign in its plain form, character for character."""
    return "".join(map(_plain, text))


def scan(text: str) -> list[Token]:
    """The tokens of `text`, with a last one of kind "end"; raises Unreadable for a text that is too long."""
    if len(text) > LONGEST:
        raise Unreadable(
            text,
            LONGEST,
            len(text),
            f"this is {len(text)} characters long, too long for a measurement",
            # Whether it is a length or a count is not known here: no example fits both.
            "Clear it and type the measurement alone.",
        )
    plain = plain_text(text)
    tokens: list[Token] = []
    place = 0
    spaced = False
    size = len(plain)
    while place < size:
        character = plain[place]
        if character == " ":
            spaced = True
            place += 1
            continue
        kind, end = _token_end(plain, place)
        body = plain[place:end]
        if kind == "word" and end < size and plain[end] == ".":
            end += 1  # the point of an abbreviation: in. no. deg.
        if body == "''":
            body = '"'
        tokens.append(Token(kind, body, place, end, spaced))
        spaced = False
        place = end
    tokens.append(Token("end", "", size, size, spaced))
    return tokens


def _token_end(plain: str, place: int) -> tuple[str, int]:
    character = plain[place]
    following = plain[place + 1 : place + 2]
    if character in _DIGITS or (character in ".," and following != "" and following in _DIGITS):
        return "number", _number_end(plain, place)
    if character in VULGAR:
        return "vulgar", place + 1
    if character.isalpha():
        end = place + 1
        while end < len(plain) and plain[end].isalpha():
            end += 1
        return "word", end
    if character == "'" and following == "'":
        return "sign", place + 2
    return "sign", place + 1


def _number_end(plain: str, place: int) -> int:
    end = place
    while end < len(plain) and (plain[end] in _DIGITS or plain[end] in ".,"):
        end += 1
    if plain[end : end + 1] == "e":
        after = end + 1
        if plain[after : after + 1] in ("+", "-"):
            after += 1
        first = after
        while after < len(plain) and plain[after] in _DIGITS:
            after += 1
        if after > first:
            return after
    return end
