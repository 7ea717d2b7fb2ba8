"""No operation of the language is left out where the tests run over every function."""

from __future__ import annotations

from every_function import EVERY_FUNCTION, OF_CONDITIONS, behind

from godet.operations.catalogue import OPERATIONS
from godet.operations.record import numeric_function


def test_every_operation_is_among_the_functions_that_are_tried() -> None:
    tried = {
        behind(function) for function, _ in (*EVERY_FUNCTION.values(), *OF_CONDITIONS.values())
    }
    left_out = [n for n, op in OPERATIONS.items() if numeric_function(op.function) not in tried]
    assert left_out == []
