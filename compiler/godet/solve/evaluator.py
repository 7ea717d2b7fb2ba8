"""Computes one node after another, for all bodies at once.

In: a graph and inputs. Out: values (bodies or 1, ...) and, where a node's guard fails, the fault
for each body. A fault travels to every node that needs the failing one, and no further: the branch
not taken and the estimate not needed pass no fault on. Values may be dual numbers.

    evaluator.compute(number)
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import NDArray

from godet.geometry.dual import Values, value_of
from godet.geometry.guards import Breach, Guarded
from godet.graph.node import Graph
from godet.operations.catalogue import OPERATIONS
from godet.operations.record import numeric_function
from godet.solve.inputs import Inputs

# which fault a body has met at a node: 0 for none, else one more than its place in `faults`
FaultNumbers = NDArray[np.intp]


@dataclass(frozen=True, slots=True)
class Fault:
    node: int
    breach: Breach
    # further nodes concerned, each with a number for every body
    others: Mapping[int, NDArray[np.float64]] = field(default_factory=dict)


@dataclass(slots=True)
class Evaluator:
    graph: Graph
    inputs: Inputs
    values: dict[int, Values] = field(default_factory=dict)
    faults: list[Fault] = field(default_factory=list)
    fault_of: dict[int, FaultNumbers] = field(default_factory=dict)

    def compute(self, number: int) -> None:
        """Work out one node whose inputs are known."""
        node = self.graph[number]
        constants: Mapping[str, Any] = dict(node.constants)
        match node.operation:
            case "number":
                self.values[number] = np.array([float(constants["value"])])
            case "degrees":
                self.values[number] = np.radians(np.array([float(constants["value"])]))
            case "word":
                self.values[number] = np.array([constants["word"]])
            case "measure":
                self.values[number] = self._given(self.inputs.measures, str(constants["name"]))
            case "choice":
                self.values[number] = self._given(self.inputs.choices, str(constants["name"]))
            case "cloth":
                self._cloth(number, str(constants["cloth"]), str(constants["property"]))
            case "known":
                self._known(number, *node.inputs)
            case "either":
                self._either(number, *node.inputs)
            case operation:
                record = OPERATIONS[operation]
                given = [self.values[n] for n in node.inputs]
                result = numeric_function(record.function)(*given, **constants)
                self._keep(number, node.inputs, result)

    def _given(self, table: Mapping[str, NDArray[Any]], name: str) -> Values:
        return table[name] if name in table else np.array([np.nan])

    def _cloth(self, number: int, cloth: str, property_name: str) -> None:
        known = self.inputs.cloths.get((cloth, property_name))
        if known is not None:
            self.values[number] = known
            return
        missing = Breach(f"cloth-{'missing' if self._no_cloth(cloth) else 'silent'}", _YES, {})
        self.values[number] = np.array([""]) if property_name == "structure" else np.array([np.nan])
        self._note(number, (missing,), None)

    def _no_cloth(self, cloth: str) -> bool:
        return all(name != cloth for name, _ in self.inputs.cloths)

    def _known(self, number: int, given: int, otherwise: int) -> None:
        value, guess = self.values[given], self.values[otherwise]
        plain = value_of(value)
        missing = plain == "" if plain.dtype.kind == "U" else np.isnan(plain)
        if not missing.any():
            self.values[number] = value
            return
        if missing.all():
            self.values[number] = guess
        else:
            self.values[number] = np.where(missing, guess, value)
        faults = self.fault_of.get(otherwise)
        if faults is not None:
            self.pass_on(number, np.where(missing, faults, 0))

    def _either(self, number: int, condition: int, then: int, otherwise: int) -> None:
        chosen = value_of(self.values[condition])
        first, second = _same_cubics(self.values[then], self.values[otherwise])
        shape = (-1, *(1,) * (first.ndim - 1))
        self.values[number] = np.where(chosen.reshape(shape), first, second)
        none = np.zeros(1, dtype=np.intp)
        branch = np.where(chosen, self.fault_of.get(then, none), self.fault_of.get(otherwise, none))
        self.pass_on(number, _first(self.fault_of.get(condition), branch))

    def _keep(self, number: int, inputs: Sequence[int], result: Any) -> None:
        breaches: tuple[Breach, ...] = ()
        if isinstance(result, Guarded):
            result, breaches = result.value, result.breaches
        self.values[number] = result
        faults: FaultNumbers | None = None
        for given in inputs:
            if given in self.fault_of:
                faults = _first(faults, self.fault_of[given])
        plain = value_of(result)
        if plain.dtype.kind == "f" and not np.isfinite(plain).all():
            bad = ~np.isfinite(plain).reshape(len(plain), -1).all(axis=1)
            breaches = (*breaches, Breach("not-a-number", bad, {}))
        self._note(number, breaches, faults)

    def _note(
        self,
        number: int,
        breaches: Sequence[Breach],
        faults: FaultNumbers | None,
        others: Mapping[int, NDArray[np.float64]] = MappingProxyType({}),
    ) -> None:
        for breach in breaches:
            if not breach.failed.any():
                continue
            new = breach.failed if faults is None else breach.failed & (faults == 0)
            if not new.any():
                continue
            self.faults.append(Fault(number, breach, others))
            here = np.where(new, len(self.faults), 0).astype(np.intp)
            faults = _first(faults, here)
        if faults is not None:
            self.pass_on(number, faults)

    def pass_on(self, number: int, faults: FaultNumbers) -> None:
        """Enter faults met before, behind those that the node has already."""
        if faults.any():
            self.fault_of[number] = _first(self.fault_of.get(number), faults)

    def fail(
        self,
        number: int,
        breach: Breach,
        others: Mapping[int, NDArray[np.float64]] = MappingProxyType({}),
    ) -> None:
        """Enter a fault found outside, such as an unknown without an answer."""
        self._note(number, (breach,), self.fault_of.get(number), others)


_YES = np.array([True])


def _first(a: FaultNumbers | None, b: FaultNumbers | None) -> FaultNumbers:
    """For each body the first fault met."""
    if a is None or b is None:
        kept = a if b is None else b
        return kept if kept is not None else np.zeros(1, dtype=np.intp)
    return np.where(a == 0, b, a)


def _same_cubics(first: Values, second: Values) -> tuple[Values, Values]:
    """Two curves brought to one number of cubics: the shorter ends in cubics of no length."""
    if first.ndim != 4 or first.shape[1] == second.shape[1]:
        return first, second
    count = max(first.shape[1], second.shape[1])
    return _padded(first, count), _padded(second, count)


def _padded(curve: Values, count: int) -> Values:
    missing = count - curve.shape[1]
    if missing == 0:
        return curve
    end = curve[:, -1:, 3:, :]
    stop = np.broadcast_to(end, (curve.shape[0], missing, 4, 2))
    return np.concatenate([curve, stop], axis=1)
