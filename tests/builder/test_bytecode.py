"""What is shipped as bytecode still says what went wrong, though not in which line."""

from __future__ import annotations

import sys
import traceback
from types import CodeType

import pytest

from own_builder import ROOT

sys.path.insert(0, str(ROOT))
try:
    from builder.inside.packing import _without_lines
finally:
    sys.path.remove(str(ROOT))

_SOURCE = """
def fall(number):
    share = [each / number for each in (1, 2)]
    return share


class Part:
    def fall(self):
        with self:
            return fall(0)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        return False
"""


def _names(code: CodeType) -> set[str]:
    return {code.co_name}.union(*(_names(each) for each in code.co_consts if isinstance(each, CodeType)))


def test_a_fault_in_code_without_lines_is_still_put_into_words() -> None:
    code = compile(_SOURCE, "core.bin/part.py", "exec")
    bare = _without_lines(code)
    assert _names(bare) == _names(code)
    assert all(line is None for _, _, line in bare.co_lines())
    room: dict[str, object] = {}
    exec(bare, room)
    with pytest.raises(ZeroDivisionError) as caught:
        room["Part"]().fall()  # type: ignore[operator]
    told = "".join(traceback.format_exception(caught.value))
    assert "ZeroDivisionError: division by zero" in told and "core.bin/part.py" in told and "in fall" in told
