"""The parts of the belief about floors, against a general statistics library."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from scipy import linalg, special, stats

from setline.stages.floor.kernel import WAVE_HEIGHTS, WAVE_LENGTHS, Belief, wave_shape


def test_the_waves_shape_is_matern_three_halves() -> None:
    """The closed form equals the general Matern law with its Bessel function at order 3/2."""
    distance = np.array([[1.0, 20.0, 60.0, 400.0]])
    a = np.sqrt(3) * distance / 60
    general = 2 ** (1 - 1.5) / special.gamma(1.5) * a**1.5 * special.kv(1.5, a)
    assert wave_shape(distance, 60.0) == pytest.approx(general, rel=1e-12)
    assert wave_shape(np.zeros((1, 1)), 60.0)[0, 0] == 1.0


def _some_readings() -> tuple[np.ndarray, np.ndarray, np.ndarray, np.ndarray, np.ndarray]:
    """Return spots, terms, prior variances, heights and variances of forty readings."""
    chance = np.random.default_rng(7)
    spots = chance.uniform(-80, 80, (40, 2))
    terms = np.column_stack((np.ones(40), spots))
    heights = 0.004 * spots[:, 0] + 0.1 * np.sin(spots[:, 1] / 30) + chance.normal(0, 0.03, 40)
    return spots, terms, np.array([9.0, 2e-5, 2e-5]), heights, np.full(40, 0.03**2)


def test_the_weights_are_how_well_each_kernel_foretells_the_readings() -> None:
    """Each weight is the normal density of the readings times how usual such waves are, by scipy."""
    spots, terms, prior, heights, variances = _some_readings()
    distance = np.hypot(*(spots[:, None] - spots).transpose(2, 0, 1))
    logs = []
    for length, s in itertools.product(WAVE_LENGTHS, WAVE_HEIGHTS):
        covariance = s * s * wave_shape(distance, length) + (terms * prior) @ terms.T + np.diag(variances)
        fit = stats.multivariate_normal(np.zeros(40), covariance).logpdf(heights)
        usual = stats.norm(np.log(0.1), 0.7).logpdf(np.log(s)) + stats.norm(np.log(60), 0.6).logpdf(
            np.log(length)
        )
        logs.append(fit + usual)
    expected = np.exp(np.array(logs) - special.logsumexp(logs))
    assert Belief(spots, terms, prior, heights, variances).weights == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize("count", [1, 2, 17, 40])
def test_predictions_are_those_of_twelve_triangular_solves(count: int) -> None:
    """Mean and variance at new spots equal scipy's Cholesky solves, averaged, at any number of readings."""
    every = _some_readings()
    spots, terms, heights, variances = (part[:count] for part in (every[0], every[1], every[3], every[4]))
    asked, asked_terms, prior = every[0][:5] + 7, every[1][:5] + np.array((0, 7, 7)), every[2]
    belief = Belief(spots, terms, prior, heights, variances)
    between = np.hypot(*(spots[:, None] - spots).transpose(2, 0, 1))
    away = np.hypot(*(asked[:, None] - spots).transpose(2, 0, 1))
    means, spreads = [], []
    for length, s in itertools.product(WAVE_LENGTHS, WAVE_HEIGHTS):
        covariance = s * s * wave_shape(between, length) + (terms * prior) @ terms.T + np.diag(variances)
        across = s * s * wave_shape(away, length) + (asked_terms * prior) @ terms.T
        factor = linalg.cho_factor(covariance)
        means.append(across @ linalg.cho_solve(factor, heights))
        known = (across * linalg.cho_solve(factor, across.T).T).sum(axis=1)
        spreads.append(s * s + np.square(asked_terms) @ prior - known)
    mean = belief.weights @ means
    variance = belief.weights @ (spreads + np.square(means - mean))
    found_mean, found_variance = belief.at(asked, asked_terms)
    assert found_mean == pytest.approx(mean, abs=1e-9)
    assert found_variance == pytest.approx(variance, abs=1e-9)
