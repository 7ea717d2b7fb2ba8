"""The column dress on the knit tee, by hand in NumPy: what Godet is measured against.

In: bust, waist, hip and height (B,) in mm. Out: points as complex numbers, across + down * i (B,);
edges as control points (cubics, 4, B); lengths, widths and what the checks compare (B,) in mm. A
close fit and a short sleeve, everything else by default, in a jersey that stretches 40 % across.

    plain_dress(np.array([940.0]), np.array([760.0]), np.array([1020.0]), np.array([1680.0]))
"""

from __future__ import annotations

import numpy as np
from plain_curves import (
    Array,
    across_at,
    at,
    at_length,
    hobby,
    length,
    line,
    part,
    secant,
)

QUARTER, SCOOP, HOLLOW = np.radians((90, 10, 3))
USABLE = 1 + 0.6 * 0.4  # how far the jersey may stay stretched


def plain_dress(bust: Array, waist: Array, hip: Array, height: Array) -> dict[str, Array]:
    neck_base, slope = 125 + 0.21 * bust + 0.03 * height, np.radians(12.5 + height / 224)
    root, breadth, along_shoulder = neck_base / 18, neck_base / 6 + 5, np.exp(1j * slope)
    to_hip, upper_arm = np.minimum(0.121 * height, 203.2), 15 + 0.285 * bust
    bust_width, least = (bust + 8) / 4, (waist + 8) / 4
    waist_width, hip_width = np.maximum(least, 0.7 * bust_width + 0.3 * least), (hip + 10) / 4

    side_neck = breadth + 20 * along_shoulder
    shoulder_point = breadth + (0.057 * height + 0.03 * bust) * along_shoulder
    underarm = bust_width + 1j * (root + 0.08 * (height + bust))
    centre_waist = 1j * (root + 0.244 * height)
    side_waist = centre_waist + waist_width
    hip_side = centre_waist + hip_width + 1j * to_hip
    hem_side = centre_waist + hip_width - 25.4 + 1j * 0.345 * height

    # the side, blended at the waist over 8 cm
    above, below = hobby(underarm, side_waist, 1j, 1j), hobby(side_waist, hip_side, None, 1j)
    last = hobby(hip_side, hem_side, 1j, 1j)
    above = part(above, at_length(above, length(above) - 40))
    below = part(below[::-1], 1 - at_length(below, 40))[::-1]
    bridge = hobby(above[3], below[0], above[3] - above[2], below[1] - below[0])

    hem_centre = centre_waist + 1j * (hem_side - centre_waist).imag

    out: dict[str, Array] = {
        "neck_side": breadth + 0j, "shoulder_point": shoulder_point, "side_neck": side_neck,
        "underarm": underarm, "centre_waist": centre_waist, "side_waist": side_waist,
        "hip_side": hip_side, "hem_side": hem_side, "hem_centre": hem_centre,
        "waist_notch": at(bridge, at_length(bridge, 40)),
        "edge side": np.array([above, bridge, below, last]),
        "edge shoulder": line(side_neck, shoulder_point)[None],
        "edge bottom": line(hem_centre, hem_side)[None],
    }  # fmt: skip
    out = {f"{half}.{name}": value for half in ("front", "back") for name, value in out.items()}

    # necks and armholes
    front_neck = 1j * (breadth + 7 + np.minimum(25, neck_base / 12 + 20))
    back_neck = 1j * (root + np.minimum(10, neck_base / 10))
    rise = back_neck.imag - side_neck.imag
    even = rise / np.tan((QUARTER - slope - SCOOP) / 2)
    neck_flat = back_neck + np.maximum(0.05 * side_neck.real, side_neck.real - even)
    upward = np.exp(1j * (slope - QUARTER))
    curved = hobby(neck_flat, side_neck, 1, upward * np.exp(1j * SCOOP))
    necks = {
        "front": hobby(front_neck, side_neck, 1, upward * np.exp(-1j * SCOOP))[None],
        "back": np.array([line(back_neck, neck_flat), curved]),
    }
    lengths = {"back.neck": abs(neck_flat - back_neck) + length(curved)}
    lengths["front.neck"] = length(necks["front"][0])
    out |= {"front.centre_neck": front_neck, "back.centre_neck": back_neck}
    out["back.neck_flat"] = neck_flat
    for half, hollow in (("front", HOLLOW), ("back", -HOLLOW)):
        armhole = hobby(shoulder_point, underarm, -upward * np.exp(1j * hollow), 1)
        lengths[f"{half}.armhole"] = length(armhole)
        notch = 0.35 * lengths["front.armhole"]
        from_shoulder = lengths[f"{half}.armhole"] - notch
        out[f"{half}.{half}_notch"] = at(armhole, at_length(armhole, from_shoulder))
        centre = [line(out[f"{half}.centre_neck"], centre_waist), line(centre_waist, hem_centre)]
        out |= {f"{half}.edge armhole": armhole[None], f"{half}.edge neck": necks[half]}
        out[f"{half}.edge centre"] = np.array(centre)

    # the sleeve, its cap raised until it fits the armholes
    biceps, seam = upper_arm + 44, 1j * 0.12 * 0.346 * height
    back_underarm, front_underarm = -biceps / 2 + 0j, biceps / 2 + 0j
    back_hem, front_hem = -0.475 * biceps + seam, 0.475 * biceps + seam
    cap_length = lengths["front.armhole"] + lengths["back.armhole"] + 5

    up, down = (back_hem - back_underarm) / 1j, (front_hem - front_underarm) / 1j  # square

    def cap(height: Array) -> Array:
        top = -1j * height
        rising = hobby(back_underarm, top, up, 1)
        return np.array([rising, hobby(top, front_underarm, 1, down)])

    def too_long(height: Array) -> Array:
        rising, falling = cap(height)
        return np.asarray(length(rising) + length(falling) - cap_length)

    cap_height = secant(too_long, 0.4 * biceps, 0.45 * biceps)
    drawn = cap(cap_height)
    sleeve = {
        "back_underarm": back_underarm, "front_underarm": front_underarm,
        "back_hem": back_hem, "front_hem": front_hem, "cap_top": -1j * cap_height,
        "edge back_seam": line(back_underarm, back_hem)[None],
        "edge front_seam": line(front_underarm, front_hem)[None],
        "edge cap": drawn, "edge bottom": hobby(back_hem, front_hem, up, down)[None],
    }  # fmt: skip

    # the neckband, of whose length the neck has 12 % less
    whole_neck = 2 * (lengths["front.neck"] + lengths["back.neck"])
    band = 0.88 * whole_neck + 0j
    corner, depth = np.zeros_like(band), np.full_like(band, 40j)
    neckband = {
        "upper_first": corner, "upper_last": band, "lower_first": depth, "lower_last": depth + band,
        "edge upper": line(corner, band)[None], "edge lower": line(depth, depth + band)[None],
        "edge first_side": line(corner, depth)[None],
        "edge last_side": line(band, depth + band)[None],
    }  # fmt: skip

    high_hip = across_at(below, side_waist.imag + to_hip / 2)
    at_waist = across_at(bridge, side_waist.imag)
    upper_chest = np.minimum(1.02 * bust, 160 + 0.816 * bust)
    hand = 1.22 * (28 + 0.081 * upper_chest + 0.032 * height)
    out |= {f"sleeve.{name}": value for name, value in sleeve.items()}
    out |= {f"neckband.{name}": value for name, value in neckband.items()}
    out |= {
        "level bust": underarm.imag, "level waist": side_waist.imag,
        "level high_hip": side_waist.imag + to_hip / 2, "level hip": hip_side.imag,
        "gives waist": at_waist - waist_width,
    }  # fmt: skip
    checks = {
        "skirt length": (0.345 * height, to_hip),
        "hem taper": (np.full_like(bust, 25.4), (0.345 * height - to_hip) / 3),
        "hip": (4 * hip_width, hip / USABLE),
        "high hip": (4 * high_hip, (waist + 0.65 * (hip - waist)) / USABLE),
        "floor": (0.345 * height, 0.63 * height - 20),
        "bust": (4 * bust_width, bust / USABLE),
        "waist": (4 * at_waist, waist / USABLE),
        "biceps": (biceps, upper_arm / USABLE),
        "hand": (1.4 * 0.95 * biceps, hand),
        "shoulder": (abs(shoulder_point - side_neck), np.full_like(bust, 20)),
        "neck": (1.4 * whole_neck, 421 + 0.083 * bust + 0.034 * height),
        "low cap": (cap_height, biceps / 4),
        "high cap": (cap_height, biceps / 2),
    }
    for name, (measured, wanted) in checks.items():
        out |= {f"measured {name}": measured, f"wanted {name}": wanted}
    return out
