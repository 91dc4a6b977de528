"""The echo of a small room, from its size and what its walls swallow.

Source: J. B. Allen and D. A. Berkley, Image method for efficiently simulating small-room acoustics, Journal of the
Acoustical Society of America 65 (1979), 943-950.
"""

from functools import cache

import numpy as np

from saythesum.ports import LISTENING_RATE_HZ, Samples

ROOM_M = (4.2, 3.1, 2.6)
MOUTH_M = (1.2, 1.5, 1.2)
MICROPHONE_M = (1.9, 1.7, 1.0)
ABSORBED = 0.25
"""Of the energy, at each wall: plaster with a carpet and some furniture. Common practice."""
SOUND_M_A_SECOND = 343.0
LONGEST_S = 0.5


@cache
def impulse_response() -> Samples:
    """From mouth to microphone, the direct sound at 1."""
    count = int(LONGEST_S * LISTENING_RATE_HZ)
    response = np.zeros(count)
    reach_m = LONGEST_S * SOUND_M_A_SECOND
    xs, ys, zs = (_images(*axis, reach_m) for axis in zip(ROOM_M, MOUTH_M, MICROPHONE_M, strict=True))
    for x_m, x_walls in xs:
        for y_m, y_walls in ys:
            z_m, z_walls = zs[:, 0], zs[:, 1]
            distance_m = np.sqrt(x_m**2 + y_m**2 + z_m**2)
            strength = np.sqrt(1 - ABSORBED) ** (x_walls + y_walls + z_walls) / distance_m
            at = np.rint(distance_m / SOUND_M_A_SECOND * LISTENING_RATE_HZ).astype(int)
            inside = at < count
            np.add.at(response, at[inside], strength[inside])
    direct_at = int(np.flatnonzero(response)[0])
    heard: Samples = (response[direct_at:] / response[direct_at]).astype(np.float32)
    return heard


def _images(
    length_m: float, source_m: float, ear_m: float, reach_m: float
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    """Along one axis: how far each image of the source lies from the ear, and at how many walls it was thrown back."""
    most = int(reach_m / (2 * length_m)) + 1
    found = []
    for room in range(-most, most + 1):
        found.append((2 * room * length_m + source_m - ear_m, abs(2 * room)))
        found.append((2 * room * length_m - source_m - ear_m, abs(2 * room - 1)))
    return np.array(found, dtype=np.float64)
