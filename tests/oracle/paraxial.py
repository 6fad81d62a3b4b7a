"""Paraxial system matrices on (height mm, reduced angle n·u); lengths mm, powers D."""

import numpy as np


def refract(power_d):
    return np.array([[1.0, 0.0], [-power_d / 1000.0, 1.0]])


def travel(t_mm, n):
    return np.array([[1.0, t_mm / n], [0.0, 1.0]])


def surface_power(radius_mm, n_before, n_after):
    """An infinite radius is a plane and has no power."""
    return 1000.0 * (n_after - n_before) / radius_mm


def system(radii, gaps, indices):
    """The matrix from the first vertex to the last; `indices` has one more entry than `radii`."""
    m = np.eye(2)
    for i, radius in enumerate(radii):
        m = refract(surface_power(radius, indices[i], indices[i + 1])) @ m
        if i < len(gaps):
            m = travel(gaps[i], indices[i + 1]) @ m
    return m


def power(m):
    return -1000.0 * m[1, 0]


def cardinal_points(m, n_before, n_after, depth_mm):
    """Positions from the first vertex of a system whose last vertex lies `depth_mm` behind the first."""
    c = m[1, 0]
    front_focus = n_before * m[1, 1] / c
    back_focus = depth_mm - n_after * m[0, 0] / c
    f, f_dash = -n_before / c, -n_after / c
    return {
        "F": front_focus,
        "F'": back_focus,
        "P": front_focus + f,
        "P'": back_focus - f_dash,
        # A nodal point lies the other side's focal length away from its focus.
        "N": front_focus + f_dash,
        "N'": back_focus - f,
    }


def image_of(m, n_before, n_after, distance_mm):
    """Distance of the image behind the last vertex, and its magnification, of an object in front of the first."""
    (a, b), (c, d) = m
    reduced = distance_mm / n_before
    image = -(a * reduced + b) / (c * reduced + d)
    return n_after * image, a + image * c
