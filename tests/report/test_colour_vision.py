"""The ramp of ladders as all kinds of colour vision see it."""

from itertools import pairwise

import numpy as np
import pytest

from cli.render.pictures.theme import ladder_colour, luminance

# Machado, Oliveira and Fernandes 2009, "A physiologically-based model for simulation of color
# vision deficiency", IEEE TVCG 15(6): 1291-8, at full severity (the numbers from memory; each row
# adds up to 1, so grey stays grey).
VISION = {
    "usual": np.eye(3),
    "no red": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "no green": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "no blue": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}


def linear(colour):
    parts = np.array([int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)])
    return np.where(parts <= 0.04045, parts / 12.92, ((parts + 0.055) / 1.055) ** 2.4)


def seen(colour, vision):
    """Return a colour as it is seen, in linear red, green and blue."""
    return np.clip(np.array(VISION[vision]) @ linear(colour), 0, 1)


def lightness(parts):
    """Return CIE lightness, 0 to 100."""
    y = float(parts @ np.array([0.2126, 0.7152, 0.0722]))
    return 116 * y ** (1 / 3) - 16 if y > 0.008856 else 903.3 * y


@pytest.mark.parametrize("vision", VISION)
def test_grey_stays_grey(vision):
    assert seen("#808080", vision) == pytest.approx(linear("#808080"), abs=1e-4)


@pytest.mark.parametrize("vision", VISION)
@pytest.mark.parametrize("bands", [3, 5, 8])
def test_neighbouring_bands_differ_in_lightness_to_everybody(vision, bands):
    row = [lightness(seen(ladder_colour(rung / (bands - 1)), vision)) for rung in range(bands)]

    assert all(after - before >= 5 for before, after in pairwise(row))


# Without red or green every ramp from blue to yellow passes a grey: there lightness tells.
@pytest.mark.parametrize("vision", ["usual", "no blue"])
def test_the_middle_of_the_ramp_is_a_colour(vision):
    parts = seen(ladder_colour(0.5), vision)

    assert max(parts) >= 1.5 * min(parts)


def test_simulated_lightness_without_a_deficiency_is_that_of_the_page():
    colour = ladder_colour(0.3)

    assert lightness(seen(colour, "usual")) == pytest.approx(
        116 * luminance(colour) ** (1 / 3) - 16, abs=0.01
    )
