"""What is asked of every Python and every engine, and what CPython answers here, by its hash."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from calc.job import work, work_text
from generated_requests import generated
from published_requests import published_requests

CORPUS = Path(__file__).resolve().parents[1] / "corpus"
MANY = 5000 if os.environ.get("CONEWRIGHT_DEEP") else 300
"""Generated requests: `--deep` asks them all."""


def asked() -> list[str]:
    """The corpus, a request for each published row, and generated ones from a seed of their own."""
    kept = [file.read_text("utf-8") for file in sorted(CORPUS.iterdir()) if file.suffix in (".json", ".txt")]
    texts = [*kept, *published_requests(), *generated(work, MANY, seed=33)]
    return list(dict.fromkeys(texts))


def hash_of(text: str) -> str:
    """SHA-256 of a text, as in a browser."""
    return hashlib.sha256(text.encode()).hexdigest()


def answered(texts: list[str]) -> list[str]:
    """The hash of each answer by the core under test."""
    return [hash_of(work_text(text)) for text in texts]


def difference(ours: str, theirs: str) -> str:
    """Where two answers part, with what stands around."""
    pairs = enumerate(zip(ours, theirs, strict=False))
    at = next((place for place, (one, other) in pairs if one != other), min(len(ours), len(theirs)))
    begin, end = max(0, at - 200), at + 60
    return f"at {at}:\n CPython here {ours[begin:end]!r}\n there        {theirs[begin:end]!r}"
