"""All operations by name.

OPERATIONS["moved"].sentence
"""

from godet.operations.curves import CURVES
from godet.operations.darts import DARTS
from godet.operations.moving import MOVING
from godet.operations.points import POINTS
from godet.operations.record import Operation
from godet.operations.scalars import SCALARS

OPERATIONS: dict[str, Operation] = {
    op.name: op for op in (*SCALARS, *POINTS, *CURVES, *DARTS, *MOVING)
}
