"""The mesh of a piece in its yarn: a glTF file that holds what it says, small enough for a page."""

import json
import os
import shutil
import struct
import subprocess

import numpy as np
import pytest

from hookwright.drawing import mesh_bytes
from hookwright.drawing.cloth_mesh import cloth_mesh
from hookwright.drawing.gltf import glb_of
from hookwright.drawing.yarn_light import to_linear
from hookwright.drawing.yarn_mesh import upright, yarn_mesh

from .surfaces import surface
from .test_yarn_picture import CIRCLE, SC, STRIPES

FORMATS = {5120: "i1", 5121: "u1", 5123: "<u2"}
WIDE = {"SCALAR": 1, "VEC3": 3, "VEC4": 4}


def opened(data: bytes):
    """(tree, arrays of all accessors) of a .glb, its frame checked on the way."""
    magic, version, length = struct.unpack_from("<III", data)
    assert (magic, version, length) == (0x46546C67, 2, len(data))
    size, kind = struct.unpack_from("<II", data, 12)
    assert kind == 0x4E4F534A and size % 4 == 0
    tree = json.loads(data[20 : 20 + size])
    held, kind = struct.unpack_from("<II", data, 20 + size)
    assert kind == 0x004E4942 and held % 4 == 0 and 28 + size + held == len(data)
    buffer = data[28 + size :]
    assert tree["buffers"] == [{"byteLength": len(buffer)}]
    arrays = []
    for accessor in tree["accessors"]:
        view = tree["bufferViews"][accessor["bufferView"]]
        form, wide = np.dtype(FORMATS[accessor["componentType"]]), WIDE[accessor["type"]]
        stride, first = view.get("byteStride", form.itemsize * wide), view["byteOffset"] + accessor.get("byteOffset", 0)
        assert first % form.itemsize == 0 and stride % form.itemsize == 0
        assert accessor.get("byteOffset", 0) + stride * (accessor["count"] - 1) + form.itemsize * wide <= view["byteLength"]
        arrays.append(np.ndarray((accessor["count"], wide), form, buffer, first, (stride, form.itemsize)))
    return tree, arrays


def test_the_file_holds_what_it_says():
    """Frame, views, bounds and indices agree; normals are units; the material has the colour in linear light."""
    tree, arrays = opened(mesh_bytes(surface(STRIPES), ["coal", "lemon", ""], name="Swatch", words="A swatch."))
    assert tree["asset"] == {"version": "2.0", "generator": "Hookwright", "extras": {"description": "A swatch."}}
    assert tree["extensionsRequired"] == ["KHR_mesh_quantization"]
    assert len(tree["materials"]) == 2
    for primitive in tree["meshes"][0]["primitives"]:
        place, normal = (arrays[primitive["attributes"][name]] for name in ("POSITION", "NORMAL"))
        told = tree["accessors"][primitive["attributes"]["POSITION"]]
        assert told["min"] == place.min(axis=0).tolist() and told["max"] == place.max(axis=0).tolist()
        assert np.abs(np.linalg.norm(normal / 127, axis=1) - 1).max() < 0.02
        assert arrays[primitive["indices"]].max() == len(place) - 1 and len(place) <= 65_535
    dark = tree["materials"][0]["pbrMetallicRoughness"]["baseColorFactor"]
    assert dark[:3] == pytest.approx(to_linear(np.array([0x33, 0x35, 0x3A]) / 255).tolist(), abs=1e-4)


def test_places_are_in_metres():
    """A swatch of 12 stitches of 7 mm is a little over 84 mm wide."""
    tree, arrays = opened(mesh_bytes(surface(SC), ["rose"]))
    node = tree["nodes"][0]
    place = np.concatenate([arrays[one["attributes"]["POSITION"]] for one in tree["meshes"][0]["primitives"]])
    wide = np.ptp(place[:, 0]) * node["scale"][0]
    assert 0.080 < wide < 0.100


def triangles(part) -> np.ndarray:
    index = part.index.astype(int)
    if not part.strip:
        return index.reshape(-1, 3)
    each = np.stack([index[:-2], index[1:-1], index[2:]], axis=1)
    each[1::2, :2] = each[1::2, 1::-1]
    return each[(each[:, 0] != each[:, 1]) & (each[:, 1] != each[:, 2]) & (each[:, 0] != each[:, 2])]


def test_triangles_face_outwards():
    """Wound so that the front of each looks the way of its normals: nearly all, since a tube bends."""
    for part in yarn_mesh(surface(SC)):
        each = triangles(part)
        a, b, c = (part.place[each[:, corner]] for corner in range(3))
        way = (np.cross(b - a, c - a) * part.normal[each].sum(axis=1)).sum(axis=1)
        assert (way > 0).mean() > 0.97


def test_less_room_gives_fewer_vertices_but_all_the_yarn():
    """With a bound the mesh is smaller, and as large in space."""
    disc = surface(CIRCLE, "disc")
    whole, small = yarn_mesh(disc), yarn_mesh(disc, most_bytes=40_000)
    assert sum(len(part.place) for part in small) * 20 <= 40_000 < sum(len(part.place) for part in whole) * 20
    large = [np.ptp(np.concatenate([part.place for part in parts]), axis=0) for parts in (whole, small)]
    assert large[1][:2] == pytest.approx(large[0][:2], rel=0.03)


def test_the_same_surface_gives_the_same_mesh():
    assert mesh_bytes(surface(SC), ["rose"]) == mesh_bytes(surface(SC), ["rose"])


def test_a_large_piece_is_shown_as_cloth():
    """Triangles of the fabric itself, each used once, facing its right side."""
    sheet = surface(SC)
    parts = cloth_mesh(sheet, upright(sheet)[0])
    assert sum(len(part.index) for part in parts) == 3 * len(sheet.faces)
    tree, _ = opened(glb_of(parts, [(0.5, 0.5, 0.5)]))
    assert {one["mode"] for one in tree["meshes"][0]["primitives"]} == {4}


def test_what_is_on_a_form_has_a_dark_lining():
    """One cannot look through its gaps to the far side; what lies flat is open where it is open."""
    tube = surface("Make an adjustable ring.\n\nRnd 1: 12 sc in ring. (12 sc)\n\nRnds 2-6: Sc in each st around. (12 sc)\n", "tube")
    modes = [one["mode"] for one in opened(mesh_bytes(tube, ["rose"]))[0]["meshes"][0]["primitives"]]
    assert modes == [5, 4]
    lining = cloth_mesh(tube, upright(tube)[0], lining=True)[0]
    assert lining.open.max() < 0.3 and np.hypot(*lining.place[:, [0, 2]].T).max() < np.hypot(*tube.at[:, :2].T).max() - tube.yarn_mm / 2


def test_the_standards_own_validator_finds_nothing(tmp_path):
    """Khronos' glTF validator, where node finds the package gltf-validator (in NODE_PATH)."""
    node = shutil.which("node")
    there = node and subprocess.run([node, "-e", "require('gltf-validator')"], capture_output=True, timeout=60, env=os.environ).returncode == 0
    if not there:
        pytest.skip("no node with the package gltf-validator (npm install gltf-validator; NODE_PATH=.../node_modules)")
    file = tmp_path / "disc.glb"
    file.write_bytes(mesh_bytes(surface(CIRCLE, "disc"), ["rose"], name="Disc", words="A disc."))
    script = ("require('gltf-validator').validateBytes(new Uint8Array(require('fs').readFileSync(process.argv[1])))"
              ".then(told => console.log(JSON.stringify(told.issues)))")
    told = json.loads(subprocess.run([node, "-e", script, str(file)], capture_output=True, text=True, timeout=60, check=True).stdout)
    assert (told["numErrors"], told["numWarnings"]) == (0, 0), told["messages"]
