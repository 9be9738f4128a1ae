"""Goes into the browser's library as `sitecustomize`: finds the rest of the library, and the core.

Each is one file: four bytes with the length of its index, the index, and what the index points to, all
marshalled by the same interpreter (`packing.py`). Modules come from it in a fraction of the time they take
from a zip.
"""

# Nothing of the library can be imported here, `__future__` included: this is what finds it.
import gc
import marshal
import sys
from _frozen_importlib import ModuleSpec
from posix import pread

TYPE_CHECKING = False
if TYPE_CHECKING:
    from types import ModuleType
    from typing import Any

PLACES = ("/lib/library.bin", "/lib/core.bin")
# So many fresh objects before the collector looks at them: a request makes thousands and leaves few.
THRESHOLD = 20_000


class Packed:
    """Finder and loader of the modules in one file."""

    def __init__(self, place: str) -> None:
        # Unbuffered: each part is read by itself, once. The whole would lie in the memory for ever.
        self._file = open(place, "rb", buffering=0)
        self._begin = 4 + int.from_bytes(self._file.read(4), "little")
        self._index: dict[str, tuple[bool, int, int]] = marshal.loads(self._file.read(self._begin - 4))
        self._held: dict[str, bytes] | None = None
        self._place = place

    def _read(self, name: str) -> bytes:
        _, begin, end = self._index[name]
        return pread(self._file.fileno(), end - begin, self._begin + begin)

    def _part(self, name: str) -> "Any":
        return marshal.loads(self._read(name) if self._held is None else self._held[name])

    def hold(self) -> None:
        """Take what was not imported yet into the memory, and let go of the file.

        A snapshot holds the memory and no file. A module is imported once, so the others are not asked for
        again.
        """
        rest = {name: told for name, told in self._index.items() if name not in sys.modules}
        self._held = {name: self._read(name) for name in rest}
        self._index = rest
        self._file.close()

    def find_spec(self, name: str, path: object = None, target: object = None) -> "ModuleSpec | None":
        """As the import system asks of a finder."""
        found = self._index.get(name)
        if found is None:
            return None
        return ModuleSpec(name, self, origin=f"{self._place}/{name}", is_package=found[0])  # type: ignore[arg-type]

    def create_module(self, spec: ModuleSpec) -> None:
        """As the import system asks of a loader: the usual module will do."""

    def exec_module(self, module: "ModuleType") -> None:
        """As the import system asks of a loader."""
        exec(self._part(module.__name__), module.__dict__)

    def table(self, path: str) -> "Any":
        """What was made of a file that is no module. Raises OSError where there is none."""
        if path not in self._index:
            raise OSError(f"{path} is not packed")
        return self._part(path)


def hold() -> None:
    """To be called before the memory is kept without the files."""
    for each in _PACKED:
        each.hold()


def started() -> None:
    """To be called once the core is there: what lives now lives on, and need not be looked at again."""
    gc.freeze()
    gc.set_threshold(THRESHOLD)
    gc.enable()


# Nothing made while the modules come in is to be thrown away.
gc.disable()
_PACKED = [Packed(place) for place in PLACES]
sys.meta_path[:0] = _PACKED
