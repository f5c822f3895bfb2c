"""What is believed of a floor before it is read, and how twelve such beliefs are weighed by the readings.

A floor is taken to be a plane with gentle waves on it: a Gaussian process with a Matern 3/2 kernel for the
waves, a wide prior for the plane, an unknown rise for each marked step, and an unknown zero for each laser
set-up that is tied to no other. How high and how long the waves are is not known, so all twelve pairs of
``WAVE_HEIGHTS`` and ``WAVE_LENGTHS`` are fitted and averaged, each weighted by how well it foretells the
readings and by how usual such waves are.

Everything here is in inches and floats; ``surface`` converts from ticks and back.

The twelve share three distance kernels: within one wave length only the wave height differs. So a prediction
needs three large products instead of twelve, and the averages stay exact::

    mean     = sum over l of  r . sum over s of (w s^2 a)  +  phi . sum(w D F'a)
    variance = k(x, x) - sum over l of (r'A r + 2 r'G phi) - phi'H phi + spread of the twelve means

with r the distance kernel from the point to the readings, phi the point's plane and step terms, F the
readings' terms, D the terms' prior variances, P the inverse covariance of the readings under one kernel,
a = P z, w the weights, A = sum(w s^4 P), G = sum(w s^2 P F D) and H = sum(w D F'P F D).

Source: Rasmussen and Williams, Gaussian Processes for Machine Learning (2006), section 2.2 (prediction and
marginal likelihood), 2.7 (basis functions with a Gaussian prior), 4.2 (the Matern kernels). The pairs and the
priors are the project's own choice, from trials on invented floors.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

__all__ = ["WAVE_HEIGHTS", "WAVE_LENGTHS", "Belief", "wave_shape"]

Array = NDArray[np.float64]

WAVE_HEIGHTS = (0.03, 0.06, 0.12, 0.25)  # s, one standard deviation of the waves [in]
WAVE_LENGTHS = (30.0, 60.0, 120.0)  # l [in]
USUAL_HEIGHT, HEIGHT_SPREAD = 0.1, 0.7  # log-normal prior of s: median [in], log-sd
USUAL_LENGTH, LENGTH_SPREAD = 60.0, 0.6  # the same of l
ZERO_SD = 3.0  # of the plane's height, and of an untied set-up's zero, about the mean of the readings [in]
SLOPE_SD = 0.5 / 120  # of the plane's slope each way: half an inch in 10 ft
STEP_SD = 0.5  # of a marked step's rise [in]
BLOCK = 16  # covariances no larger than this are factored whole
STRIP = 500_000  # multiplications that the algebra library still does on one core
FEWEST_ROWS = 4  # strips of fewer rows are slower than threads that wait


def wave_shape(distance: Array, wave_length: float) -> Array:
    """Return the Matern 3/2 correlation (1 + a) exp(-a), a = sqrt(3) d / l."""
    a = distance * (3.0**0.5 / wave_length)
    shape: Array = np.exp(-a)
    a += 1.0
    shape *= a
    return shape


def _distances(spots: Array, others: Array) -> Array:
    """Return the distance between each spot and each other one."""
    along = spots[:, :1] - others[:, 0]
    across = spots[:, 1:2] - others[:, 1]
    along *= along
    across *= across
    along += across
    return np.asarray(np.sqrt(along, out=along))


def _product(left: Array, right: Array) -> Array:
    """Return left @ right, in strips small enough for the algebra library to keep to one core.

    Floors are small: on a machine that has other work its threads wait for each other longer than they work.
    """
    rows, count = STRIP // (right.shape[-2] * right.shape[-1]), left.shape[-2]
    if rows < FEWEST_ROWS or count <= rows:
        return np.asarray(left @ right)
    whole = np.empty((*left.shape[:-1], right.shape[-1]))
    for start in range(0, count, rows):
        strip = slice(start, start + rows)
        np.matmul(left[..., strip, :], right, out=whole[..., strip, :])
    return whole


def _roots(covariance: Array) -> tuple[Array, Array]:
    """Return the lower triangles L, with L L' = C, of a stack of covariances C, and their inverses.

    By halves: products of blocks are quicker than the solves they replace.
    """
    size = covariance.shape[-1]
    if size <= BLOCK:
        lower = np.linalg.cholesky(covariance).astype(np.float64, copy=False)
        return lower, np.asarray(np.linalg.inv(lower))
    half = size // 2
    root, inverse = np.zeros_like(covariance), np.zeros_like(covariance)
    root[:, :half, :half], inverse[:, :half, :half] = _roots(covariance[:, :half, :half])
    below = _product(covariance[:, half:, :half], inverse[:, :half, :half].transpose(0, 2, 1))
    rest = covariance[:, half:, half:] - _product(below, below.transpose(0, 2, 1))
    root[:, half:, half:], inverse[:, half:, half:] = _roots(rest)
    root[:, half:, :half] = below
    inverse[:, half:, :half] = -_product(_product(inverse[:, half:, half:], below), inverse[:, :half, :half])
    return root, inverse


class Belief:
    """Twelve kernels fitted to the readings and weighed.

    Args:
        spots: Where the readings stand, one a row: x, y. [in]
        terms: What plane, steps and set-ups make of each reading, one a row.
        term_variances: Prior variance of each term's factor.
        heights: The readings less the mean of their set-up. [in]
        variances: Variance of each reading. [in^2]

    Attributes:
        weights: How much each kernel counts, wave length by wave length; they add to 1.
    """

    def __init__(
        self, spots: Array, terms: Array, term_variances: Array, heights: Array, variances: Array
    ) -> None:
        self._spots = spots
        self._term_variances = term_variances
        scaled = terms * term_variances
        fixed = scaled @ terms.T + np.diag(variances)
        distance = _distances(spots, spots)
        square = np.square(WAVE_HEIGHTS)
        shapes = np.stack([wave_shape(distance, length) for length in WAVE_LENGTHS])
        covariance = square[None, :, None, None] * shapes[:, None] + fixed
        _, self._whiten = _roots(covariance.reshape(-1, *fixed.shape))
        white = self._whiten @ heights
        log_root = np.log(np.diagonal(self._whiten, axis1=1, axis2=2)).sum(axis=1)
        self.weights = _weigh(log_root - 0.5 * np.square(white).sum(axis=1))
        self._collect(white, scaled, square)

    def _collect(self, white: Array, scaled: Array, square: Array) -> None:
        """Gather what every prediction needs, summed over the wave heights (see the module's head)."""
        lengths, amplitudes = len(WAVE_LENGTHS), len(WAVE_HEIGHTS)
        readings, terms = scaled.shape
        answers = (self._whiten.transpose(0, 2, 1) @ white[:, :, None])[:, :, 0]
        tall = np.tile(square, lengths)
        self._wave_factors = (answers * tall[:, None]).reshape(lengths, amplitudes, readings)
        self._term_factors = answers @ scaled
        rooted = self._whiten @ scaled
        weighted = self._whiten * (np.sqrt(self.weights) * tall)[:, None, None]
        stacked = weighted.reshape(lengths, amplitudes * readings, readings)
        self._wave_loss = _product(stacked.transpose(0, 2, 1), stacked)
        flat = (rooted * np.sqrt(self.weights)[:, None, None]).reshape(lengths, amplitudes * readings, terms)
        self._mixed_loss = stacked.transpose(0, 2, 1) @ flat
        self._term_loss = (flat.transpose(0, 2, 1) @ flat).sum(axis=0)
        self._wave_variance = float(self.weights @ tall)
        self._scaled = scaled

    def at(self, spots: Array, terms: Array) -> tuple[Array, Array]:
        """Return the mean and the variance of the floor at each spot, averaged over the kernels.

        Args:
            spots: One a row: x, y. [in]
            terms: Their plane and step terms: the first of the columns that the readings have. The rest
                belong to the set-ups and do not move the floor.
        """
        of_floor = terms.shape[1]
        weights = self.weights.reshape(len(WAVE_LENGTHS), len(WAVE_HEIGHTS))
        distance = _distances(spots, self._spots)
        means = np.empty((len(spots), *weights.shape))
        variance = self._wave_variance + np.square(terms) @ self._term_variances[:of_floor]
        variance -= np.einsum("ij,ij->i", terms @ self._term_loss[:of_floor, :of_floor], terms)
        for place, length in enumerate(WAVE_LENGTHS):
            shape = wave_shape(distance, length)
            means[:, place] = _product(shape, self._wave_factors[place].T)
            loss = _product(shape, self._wave_loss[place])
            loss += 2.0 * (terms @ self._mixed_loss[place, :, :of_floor].T)
            variance -= np.einsum("ij,ij->i", loss, shape)
        each = means.reshape(len(spots), -1) + terms @ self._term_factors[:, :of_floor].T
        mean = each @ self.weights
        variance += np.square(each - mean[:, None]) @ self.weights
        return mean, np.maximum(variance, 0.0)

    def draw(self, spots: Array, terms: Array, count: int, chance: np.random.Generator) -> Array:
        """Return joint draws of the floor at the spots, one a row.

        Each kernel makes its share of the draws, by its weight; they stand kernel by kernel.
        """
        distance, between = _distances(spots, self._spots), _distances(spots, spots)
        of_floor = terms.shape[1]
        plane = (terms * self._term_variances[:of_floor]) @ terms.T
        plane[np.diag_indices_from(plane)] += JITTER
        draws, amplitudes = [], len(WAVE_HEIGHTS)
        for kernel, share in enumerate(_shares(self.weights, count)):
            if share == 0:
                continue
            square = WAVE_HEIGHTS[kernel % amplitudes] ** 2
            length = WAVE_LENGTHS[kernel // amplitudes]
            shape = wave_shape(distance, length)
            mean = shape @ self._wave_factors[kernel // amplitudes, kernel % amplitudes]
            mean += terms @ self._term_factors[kernel, :of_floor]
            covariance = square * shape + terms @ self._scaled[:, :of_floor].T
            known = _product(covariance, self._whiten[kernel].T)
            spread = square * wave_shape(between, length) + plane - _product(known, known.T)
            root = _roots(spread[None])[0][0]
            draws.append(mean + _product(chance.standard_normal((share, len(spots))), root.T))
        return np.concatenate(draws)


JITTER = 1e-9  # [in^2]: 1/30000 in of noise keeps the draws of near spots solvable


def _weigh(fits: Array) -> Array:
    """Return the weights of the kernels from their log marginal likelihoods and the prior of s and l."""
    high = np.log(np.divide(WAVE_HEIGHTS, USUAL_HEIGHT)) / HEIGHT_SPREAD
    long = np.log(np.divide(WAVE_LENGTHS, USUAL_LENGTH)) / LENGTH_SPREAD
    prior = -0.5 * (np.square(long)[:, None] + np.square(high))
    total = fits + prior.reshape(-1)
    weights = np.exp(total - total.max())
    return np.asarray(weights / weights.sum())


def _shares(weights: Array, count: int) -> list[int]:
    """Split a number of draws by weight: whole parts first, then the largest remainders."""
    exact = weights * count
    shares = np.floor(exact).astype(int)
    rest = np.argsort(shares - exact, kind="stable")[: count - int(shares.sum())]
    shares[rest] += 1
    return [int(share) for share in shares]
