"""The floor model the long way, as a referee: twelve kernels, a plain solve each, nothing shared."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import numpy as np

from setline.stages.floor.sounding import LaserDoubt, Sounding, StepLine

INCH = 65024
SIDE_OF_95 = 1.959963984540054


class PlainFloor:
    """Twelve kernels over some readings; no spot may be read twice from one laser."""

    def __init__(
        self, soundings: Sequence[Sounding], steps: Sequence[StepLine], lasers: Sequence[LaserDoubt]
    ) -> None:
        self.soundings, self.steps, self.lasers = soundings, steps, lasers
        self.middle = np.mean([(s.x, s.y) for s in soundings], axis=0)
        own = {k: np.mean([s.z for s in soundings if s.set_up == k]) for k in {s.set_up for s in soundings}}
        self.zero = float(own.get(0, np.mean([s.z for s in soundings])))
        self.heights = np.array([(s.z - own[s.set_up]) / INCH for s in soundings])

    def covariance(self, p: Sounding, q: Sounding, s: float, length: float) -> float:
        """Return the prior covariance of what two soundings read, without their own noise."""
        a = math.sqrt(3) * math.dist((p.x, p.y), (q.x, q.y)) / INCH / length
        u, v = (np.array((p.x, p.y)) - self.middle) / INCH, (np.array((q.x, q.y)) - self.middle) / INCH
        k = s * s * (1 + a) * math.exp(-a) + 3.0**2 + (0.5 / 120) ** 2 * (u @ v)
        for step in self.steps:
            k += 0.5**2 * step.side((p.x, p.y)) * step.side((q.x, q.y)) / 4
        if p.set_up == q.set_up != 0:
            k += 3.0**2
        for doubt in self.lasers:
            if p.laser == q.laser == doubt.laser:
                read = [(r.x, r.y) for r in self.soundings if r.laser == doubt.laser]
                about = (np.mean(read, axis=0) - self.middle) / INCH
                k += (doubt.zero / INCH) ** 2 + doubt.slope**2 * ((u - about) @ (v - about))
        return float(k)

    def at(self, points: Sequence[tuple[int, int]]) -> list[tuple[float, float]]:
        """Return (height, half of the 95 % range) in ticks at each point."""
        asked = [Sounding(x, y, 0, 0, 1) for x, y in points]
        noise = np.diag([(s.sigma / INCH) ** 2 for s in self.soundings])
        fits, means, variances = [], [], []
        for s, length in itertools.product((0.03, 0.06, 0.12, 0.25), (30, 60, 120)):
            read = np.array(
                [[self.covariance(p, q, s, length) for q in self.soundings] for p in self.soundings]
            )
            across = np.array([[self.covariance(p, q, s, length) for q in self.soundings] for p in asked])
            own = np.array([self.covariance(p, p, s, length) for p in asked])
            read += noise
            means.append(across @ np.linalg.solve(read, self.heights))
            variances.append(own - np.einsum("ij,ji->i", across, np.linalg.solve(read, across.T)))
            usual = (math.log(s / 0.1) / 0.7) ** 2 + (math.log(length / 60) / 0.6) ** 2
            fit = self.heights @ np.linalg.solve(read, self.heights) + np.linalg.slogdet(read)[1] + usual
            fits.append(-fit / 2)
        weights = np.exp(np.array(fits) - max(fits))
        weights /= weights.sum()
        mean = weights @ means
        variance = weights @ (variances + np.square(np.array(means) - mean))
        return list(zip(mean * INCH + self.zero, SIDE_OF_95 * INCH * np.sqrt(variance), strict=True))
