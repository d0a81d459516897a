"""A pocket drawn by a path tracer of the computer graphics trade (the optional ``second-opinion`` extra).

A camera without perspective stands inside the pocket just above the tips and looks at the diffuser, one pixel
for each cell of the map; what it sees of the matt diffuser is the light that falls on it.
"""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np

DISC_MM = 0.25  # a Lambertian LED (120 degrees) is a disc of this radius
FIELD_DEG = 120  # a narrow beam is a projector: hardly any light outside this field
PICTURE = 512


def renderer():
    """The path tracer's module, in its plain variant: the just-in-time ones need a compiler of their own."""
    import mitsuba

    mitsuba.set_variant("scalar_rgb")
    return mitsuba


def rendered(pocket, grid, *, places, full_angle_deg, samples, folder: Path, seed=0):
    """Light on the cells of a grid, in the unit of ``FrontMap.values``: (rows, columns)."""
    mi = renderer()
    scene = mi.load_dict(scene_of(mi, pocket, grid, places, full_angle_deg, folder))
    image = np.array(mi.render(scene, spp=samples, seed=seed), dtype=float)[:, :, 0]
    picture = image[::-1, ::-1]  # the camera looks up: east is on its left, north on top
    return picture * math.pi / pocket.diffuser_reflectance * pocket.front_area_mm2


def scene_of(mi, pocket, grid, places, full_angle_deg, folder):
    """The pocket, its LEDs of one unit of light in all, and the camera."""
    width = grid.columns * grid.pitch
    middle = (grid.left + width / 2, grid.bottom + grid.rows * grid.pitch / 2)
    to = mi.ScalarTransform4f
    camera = to().look_at(
        origin=[*middle, pocket.tip_mm + 0.01], target=[*middle, pocket.depth_mm], up=[0, 1, 0]
    ) @ to().scale([width / 2, width / 2, 1])
    scene = {
        "type": "scene",
        "integrator": {"type": "path", "max_depth": -1},
        "sensor": {
            "type": "orthographic", "to_world": camera, "near_clip": 1e-3, "far_clip": 2 * pocket.depth_mm,
            "film": {
                "type": "hdrfilm", "width": grid.columns, "height": grid.rows, "pixel_format": "rgb",
                "component_format": "float32", "rfilter": {"type": "box"},
            },
        },
    }  # fmt: skip
    surfaces = (
        ("back", pocket.back_reflectance), ("front", pocket.diffuser_reflectance),
        ("walls", pocket.wall_reflectance),
    )  # fmt: skip
    for name, reflectance in surfaces:
        path = folder / f"{name}.obj"
        path.write_text(_mesh(pocket.outline, pocket.depth_mm, name), encoding="utf-8")
        matt = {"type": "diffuse", "reflectance": {"type": "rgb", "value": reflectance}}
        scene[name] = {
            "type": "obj", "filename": str(path), "face_normals": True,
            "bsdf": {"type": "twosided", "bsdf": matt},
        }  # fmt: skip
    for number, (x, y) in enumerate(places):
        made = _disc if abs(full_angle_deg - 120) < 1e-9 else _projector
        scene[f"led{number}"] = made(mi, [x, y, pocket.tip_mm], 1 / len(places), full_angle_deg)
    return scene


def _mesh(outline, depth, name):
    count = len(outline)
    lines = [f"v {x} {y} {z}" for z in (0, depth) for x, y in outline]
    if name == "walls":
        for k in range(count):
            after = (k + 1) % count
            low, high, next_low, next_high = k + 1, count + k + 1, after + 1, count + after + 1
            lines += [f"f {low} {next_low} {next_high}", f"f {low} {next_high} {high}"]
    else:
        first = 1 if name == "back" else count + 1
        lines += [f"f {first} {first + k} {first + k + 1}" for k in range(1, count - 1)]
    return "\n".join(lines) + "\n"


def _disc(mi, at, flux, _full_angle_deg):
    radiance = flux / (math.pi * math.pi * DISC_MM**2)
    return {
        "type": "disk",
        "to_world": mi.ScalarTransform4f().translate(at).scale(DISC_MM),
        "emitter": {"type": "area", "radiance": {"type": "rgb", "value": radiance}},
    }


def _projector(mi, at, flux, full_angle_deg):
    """A picture thrown upwards that has the lobe's illuminance on a plane: I0 cos^(m+3), over pi."""
    exponent = math.log(0.5) / math.log(math.cos(math.radians(full_angle_deg) / 2))
    reach = math.tan(math.radians(FIELD_DEG / 2))
    at_pixel = ((np.arange(PICTURE) + 0.5) / PICTURE * 2 - 1) * reach
    cosine = 1 / np.sqrt(1 + at_pixel[:, None] ** 2 + at_pixel[None, :] ** 2)
    axis = flux * (exponent + 1) / (2 * math.pi)
    lobe = (axis * cosine ** (exponent + 3) / math.pi).astype(np.float32)
    bitmap = mi.Bitmap(np.repeat(lobe[:, :, None], 3, axis=2))
    return {
        "type": "projector",
        "to_world": mi.ScalarTransform4f().look_at(origin=at, target=[at[0], at[1], at[2] + 1], up=[0, 1, 0]),
        "fov": FIELD_DEG,
        "irradiance": {"type": "bitmap", "bitmap": bitmap, "raw": True, "wrap_mode": "clamp"},
    }
