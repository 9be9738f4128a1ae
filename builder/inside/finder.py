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
        with open(place, "rb") as file:
            content = memoryview(file.read())
        begin = 4 + int.from_bytes(content[:4], "little")
        self._index: dict[str, tuple[bool, int, int]] = marshal.loads(content[4:begin])
        self._parts = content[begin:]
        self._place = place

    def _part(self, name: str) -> "Any":
        _, begin, end = self._index[name]
        return marshal.loads(self._parts[begin:end])

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


def started() -> None:
    """To be called once the core is there: what lives now lives on, and need not be looked at again."""
    gc.freeze()
    gc.set_threshold(THRESHOLD)
    gc.enable()


# Nothing made while the modules come in is to be thrown away.
gc.disable()
sys.meta_path[:0] = [Packed(place) for place in PLACES]
