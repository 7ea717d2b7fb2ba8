"""How the fullness of the first side of a seam is spread: where a place on it comes to lie.

In: both lengths as sewn, and between which places of the first side it is eased, gathered or
stretched: over all of it unless said otherwise. Out: places on the other side, mm from where the
seam begins. Outside that stretch both sides lie on each other mm for mm. Nothing fails; `fits`
tells whether the stretch has room for what it is to take in.

    Spread(310.0, 300.0).on_second(155.0)                # 150.0
    Spread(310.0, 300.0, (50.0, 260.0)).on_second(50.0)  # 50.0
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Spread:
    first: float
    second: float
    between: tuple[float, float] | None = None

    @property
    def fits(self) -> bool:
        start, end = self._stretch
        return end - start > max(0.0, self.first - self.second)

    def on_second(self, place: float) -> float:
        """Where a place on the first side lies on the second."""
        start, end = self._stretch
        within = min(max(place - start, 0.0), end - start)
        return place - within * (self.first - self.second) / (end - start)

    def on_first(self, place: float) -> float:
        """Where a place on the second side lies on the first."""
        start, end = self._stretch
        fuller = self.first - self.second
        left = end - start - fuller  # of the stretch, once it is taken in
        within = min(max(place - start, 0.0), left)
        return place + within * fuller / left

    @property
    def _stretch(self) -> tuple[float, float]:
        return self.between or (0.0, self.first)
