"""glTF 2.0 binary of a mesh of yarn: places in 16 bits and normals in 8 (KHR_mesh_quantization), one material a colour, lengths in metres.

Written after the specification (Khronos, glTF 2.0 and KHR_mesh_quantization). A vertex takes 16 bytes: place 6 and 2 of padding, normal 3 and
1, and how open it lies as a colour 4; an index takes 2.
"""

import json
import struct

import numpy as np

from .yarn_light import to_linear

_ARRAY, _ELEMENTS = 34962, 34963
_BYTE, _UBYTE, _USHORT = 5120, 5121, 5123
_TRIANGLES, _STRIP = 4, 5
_MM = 0.001


def glb_of(parts, colours, *, name: str = "", words: str = "") -> bytes:
    """The .glb of Parts of a yarn_mesh. colours: sRGB of each number of a yarn, the last for -1; words: description kept with it."""
    everything = np.concatenate([part.place for part in parts])
    low, high = everything.min(axis=0), everything.max(axis=0)
    step = max(float((high - low).max()), 1e-6) / 65535
    held, views, accessors, primitives = bytearray(), [], [], []

    def view(data: bytes, target: int, stride: int = 0) -> int:
        held.extend(b"\0" * (-len(held) % 4))
        views.append({"buffer": 0, "byteOffset": len(held), "byteLength": len(data), "target": target} | ({"byteStride": stride} if stride else {}))
        held.extend(data)
        return len(views) - 1

    def accessor(**facts) -> int:
        accessors.append(facts)
        return len(accessors) - 1

    numbers = sorted({part.colour for part in parts})
    for part in parts:
        count = len(part.place)
        place = np.zeros((count, 4), "<u2")
        place[:, :3] = np.rint((part.place - low) / step).clip(0, 65535)
        normal = np.zeros((count, 4), "i1")
        normal[:, :3] = np.rint(part.normal * 127)
        shade = np.full((count, 4), 255, "u1")
        shade[:, :3] = np.rint(part.open * 255)[:, None]
        records = np.empty(count, [("place", "<u2", 4), ("normal", "i1", 4), ("shade", "u1", 4)])
        records["place"], records["normal"], records["shade"] = place, normal, shade
        own = view(records.tobytes(), _ARRAY, 16)
        attributes = {
            "POSITION": accessor(bufferView=own, byteOffset=0, componentType=_USHORT, count=count, type="VEC3",
                                 min=[int(value) for value in place[:, :3].min(axis=0)], max=[int(value) for value in place[:, :3].max(axis=0)]),
            "NORMAL": accessor(bufferView=own, byteOffset=8, componentType=_BYTE, normalized=True, count=count, type="VEC3"),
            "COLOR_0": accessor(bufferView=own, byteOffset=12, componentType=_UBYTE, normalized=True, count=count, type="VEC4"),
        }
        index = part.index.astype("<u2")
        order = accessor(bufferView=view(index.tobytes(), _ELEMENTS), componentType=_USHORT, count=len(index), type="SCALAR")
        primitives.append({"attributes": attributes, "indices": order, "mode": _STRIP if part.strip else _TRIANGLES, "material": numbers.index(part.colour)})
    held.extend(b"\0" * (-len(held) % 4))
    size = step * _MM
    tree = {
        "asset": {"version": "2.0", "generator": "Hookwright"} | ({"extras": {"description": words}} if words else {}),
        "extensionsUsed": ["KHR_mesh_quantization"],
        "extensionsRequired": ["KHR_mesh_quantization"],
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": [{"mesh": 0, "name": name or "piece", "scale": [size] * 3, "translation": [float(value) for value in low * _MM]}],
        "meshes": [{"primitives": primitives, "name": name or "piece"}],
        "materials": [_material(colours[number if number >= 0 else -1]) for number in numbers],
        "accessors": accessors,
        "bufferViews": views,
        "buffers": [{"byteLength": len(held)}],
    }
    text = json.dumps(tree, separators=(",", ":"), ensure_ascii=True).encode()
    text += b" " * (-len(text) % 4)
    whole = 12 + 8 + len(text) + 8 + len(held)
    return (struct.pack("<III", 0x46546C67, 2, whole) + struct.pack("<II", len(text), 0x4E4F534A) + text
            + struct.pack("<II", len(held), 0x004E4942) + bytes(held))


def _material(colour) -> dict:
    """Wool: rough, no metal; factors are linear light."""
    light = [round(float(part), 5) for part in to_linear(colour)]
    return {"pbrMetallicRoughness": {"baseColorFactor": [*light, 1.0], "metallicFactor": 0.0, "roughnessFactor": 0.9}, "doubleSided": True}
