"""Data classes written out for the browser mean what they meant: the core answers the same with them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from builder import runtime
from builder.say import Stop
from builder.written_out import written_out

ROOT = Path(__file__).parents[2]
_ANSWER = """
import json, sys
sys.path.insert(0, sys.argv[1])
from calc.job import work_text
import dataclasses, calc
made = [name for name, module in list(sys.modules.items()) if name.startswith("calc")
        for kind in vars(module).values() if isinstance(kind, type) and dataclasses.is_dataclass(kind)]
print(json.dumps({"answers": [work_text(text) for text in json.load(sys.stdin)], "made": made}))
"""


def answers(folder: Path, texts: list[str]) -> dict[str, list[str]]:
    """What the core in this folder answers, and the modules in which data classes were made at start."""
    told = subprocess.run(
        [sys.executable, "-X", "utf8", "-P", "-c", _ANSWER, str(folder)],
        input=json.dumps(texts),
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=True,
    )
    found: dict[str, list[str]] = json.loads(told.stdout)
    return found


@pytest.mark.deep
def test_the_core_answers_the_same_with_its_data_classes_written_out(tmp_path: Path) -> None:
    for path, file in runtime.written_files(tmp_path / "made").items():
        (tmp_path / "core" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "core" / path).write_bytes(Path(file).read_bytes())
    texts = [
        path.read_text("utf-8", errors="surrogatepass")
        for path in sorted((ROOT / "tests" / "corpus").iterdir())
    ]
    there, here = answers(tmp_path / "core", texts), answers(ROOT, texts)
    assert there["answers"] == here["answers"]
    assert there["made"] == [] and here["made"] != []


SOURCE = """
from dataclasses import dataclass, field, fields, is_dataclass, replace

@dataclass(frozen=True, slots=True)
class Point:
    x: float
    y: float = 2.0
    names: list = field(default_factory=list)

    @property
    def sum(self):
        return self.x + self.y

@dataclass(frozen=True, slots=True)
class Further(Point):
    z: str = "z"

@dataclass(slots=True)
class Loose:
    a: int = 1

@dataclass(frozen=True, slots=True)
class Checked:
    a: int

    def __post_init__(self):
        if self.a < 0:
            raise ValueError(self.a)
"""


def both(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, object]]:
    """The names of the module as it stands, and written out."""
    from builder.inside import records

    monkeypatch.setitem(sys.modules, "calc.records", records)
    spaces: list[dict[str, object]] = []
    for text in (SOURCE, written_out(SOURCE, "a test")):
        space: dict[str, object] = {"__name__": "made_up"}
        monkeypatch.setitem(sys.modules, "made_up", type(sys)("made_up"))
        exec(text, space)
        spaces.append(space)
    return spaces


def test_what_is_written_out_behaves_alike(monkeypatch: pytest.MonkeyPatch) -> None:
    for space in both(monkeypatch):
        point, further, loose, checked = (space[name] for name in ("Point", "Further", "Loose", "Checked"))
        assert callable(point) and callable(further) and callable(loose) and callable(checked)
        one = point(1.0)
        assert (one.x, one.y, one.names, one.sum) == (1.0, 2.0, [], 3.0)
        assert one.names is not point(1.0).names
        assert one == point(1.0, 2.0) and one != point(1.5) and one != further(1.0) and one != 3
        assert repr(one) == "Point(x=1.0, y=2.0, names=[])"
        assert hash(point(1.0, 2.0, ())) == hash((1.0, 2.0, ()))
        with pytest.raises(AttributeError):
            one.x = 3.0
        with pytest.raises(AttributeError):
            del one.x
        with pytest.raises((AttributeError, TypeError)):  # Python 3.11 stumbles over its own words here
            one.other = 3.0
        assert not hasattr(one, "__dict__")
        more = further(1.0, z="q")
        assert (more.x, more.y, more.z) == (1.0, 2.0, "q")
        assert space["replace"](more, y=5.0) == further(1.0, 5.0, [], "q")  # type: ignore[operator]
        names = [part.name for part in space["fields"](further)]  # type: ignore[operator]
        assert names == ["x", "y", "names", "z"]
        assert space["is_dataclass"](further) and not space["is_dataclass"](str)  # type: ignore[operator]
        free = loose()
        free.a = 7
        assert free == loose(7)
        with pytest.raises(TypeError):
            hash(free)
        with pytest.raises(ValueError, match="-1"):
            checked(-1)
        with pytest.raises(TypeError):
            point()
        match one:
            case point(1.0, y):  # type: ignore[misc]
                assert y == 2.0


@pytest.mark.parametrize(
    "source",
    [
        "from dataclasses import dataclass\n@dataclass\nclass A:\n    a: int\n",
        "from dataclasses import dataclass\n@dataclass(slots=True, order=True)\nclass A:\n    a: int\n",
        "from dataclasses import astuple\n",
        "import dataclasses\n",
        "from dataclasses import dataclass\n@dataclass(slots=True)\nclass A(B):\n    a: int\n",
    ],
)
def test_what_it_does_not_know_stops_the_build(source: str) -> None:
    with pytest.raises(Stop):
        written_out(source, "a test")
