#!/usr/bin/env python3
"""model_seeds.py OUT [GLB...]: small models that fuzz_model begins with.

Each is "J", the JSON, a zero byte and the buffer; the GLBs given are added in
the same form and as they are. Between them they use all that the reader knows.
"""
import base64
import json
import pathlib
import struct
import sys

SQUARE = [0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0]


class Model:
    def __init__(self):
        self.doc = {"asset": {"version": "2.0"}, "bufferViews": [], "accessors": [],
                    "meshes": [], "nodes": []}
        self.binary = b""

    def view(self, layout, figures, stride=None):
        self.binary += bytes(-len(self.binary) % 4)
        data = struct.pack(f"<{len(figures)}{layout}", *figures)
        view = {"buffer": 0, "byteOffset": len(self.binary), "byteLength": len(data)}
        if stride:
            view["byteStride"] = stride
        self.doc["bufferViews"].append(view)
        self.binary += data
        return len(self.doc["bufferViews"]) - 1

    def accessor(self, component, kind, count, view=None, **more):
        entry = {"componentType": component, "type": kind, "count": count, **more}
        if view is not None:
            entry["bufferView"] = view
        self.doc["accessors"].append(entry)
        return len(self.doc["accessors"]) - 1

    def floats(self, figures):
        return self.accessor(5126, "VEC3", len(figures) // 3, self.view("f", figures))

    def indices(self, figures, layout="H"):
        component = {"B": 5121, "H": 5123, "I": 5125}[layout]
        return self.accessor(component, "SCALAR", len(figures), self.view(layout, figures))

    def show(self, position, node=None, **primitive):
        attributes = {"POSITION": position, **primitive.pop("attributes", {})}
        self.doc["meshes"].append({"primitives": [{"attributes": attributes, **primitive}]})
        self.doc["nodes"].append({"mesh": len(self.doc["meshes"]) - 1, **(node or {})})
        return self

    def packed(self):
        doc = {name: value for name, value in self.doc.items() if value}
        doc.setdefault("buffers", [{"byteLength": len(self.binary)}])
        return b"J" + json.dumps(doc).encode() + b"\0" + self.binary


def quantised():
    m = Model()
    m.doc["extensionsUsed"] = ["KHR_mesh_quantization"]
    m.doc["extensionsRequired"] = ["KHR_mesh_quantization"]
    return m


def models():
    m = Model()
    yield "indexed", m.show(m.floats(SQUARE), indices=m.indices([0, 1, 2, 0, 2, 3]))
    m = Model()
    yield "bytes", m.show(m.floats(SQUARE), indices=m.indices([0, 1, 2, 0, 2, 3], "B"))
    m = Model()
    yield "wide", m.show(m.floats(SQUARE), indices=m.indices([0, 1, 2, 0, 2, 3], "I"))
    m = Model()
    yield "bare", m.show(m.floats(SQUARE[:9]))
    m = Model()
    yield "strip", m.show(m.floats(SQUARE), mode=5, indices=m.indices([0, 1, 3, 2, 2, 1, 0]))
    m = Model()
    yield "fan", m.show(m.floats(SQUARE), mode=6)
    m = Model()
    m.show(m.floats(SQUARE[:9]), mode=1).show(0)
    m.doc["meshes"][0]["primitives"].append({"attributes": {"POSITION": 0}, "mode": 4})
    yield "lines", m
    m = Model()
    view = m.view("f", [f for i in range(4) for f in [0, 0, 1, *SQUARE[3 * i:3 * i + 3]]], 24)
    normal = m.accessor(5126, "VEC3", 4, view)
    position = m.accessor(5126, "VEC3", 4, view, byteOffset=12)
    yield "strided", m.show(position, attributes={"NORMAL": normal}, indices=m.indices([0, 1, 2, 0, 2, 3]))
    for layout, component in (("b", 5120), ("B", 5121), ("h", 5122), ("H", 5123)):
        m = quantised()
        figures = [f for i in range(4) for f in [*(100 * s for s in SQUARE[3 * i:3 * i + 3]), 0]]
        stride = 4 * struct.calcsize(layout)
        position = m.accessor(component, "VEC3", 4, m.view(layout, figures, stride), normalized=True)
        normal = m.accessor(5120, "VEC3", 4, m.view("b", [0, 0, 127, 0] * 4, 4), normalized=True)
        yield f"quantised-{component}", m.show(position, attributes={"NORMAL": normal},
                                               indices=m.indices([0, 1, 2, 0, 2, 3]))
    # As our own writer does it: whole figures, undone by the node.
    m = quantised()
    figures = [f for i in range(4) for f in [*(32767 * s for s in SQUARE[3 * i:3 * i + 3]), 0]]
    position = m.accessor(5122, "VEC3", 4, m.view("h", figures, 8), min=[0, 0, 0], max=[32767, 32767, 0])
    normal = m.accessor(5120, "VEC3", 4, m.view("b", [0, 0, 127, 0] * 4, 4), normalized=True)
    yield "quantised-undone", m.show(position, {"scale": [2.5e-6] * 3, "translation": [0, 0.041, 0],
                                                "extras": {"lugline": {"schema": 1, "id": "P"}}},
                                     attributes={"NORMAL": normal}, indices=m.indices([0, 1, 2, 0, 2, 3]))
    m = quantised()
    sparse = {"count": 1,
              "indices": {"bufferView": m.view("B", [2]), "componentType": 5121},
              "values": {"bufferView": m.view("h", [32767, -32768, 7])}}
    position = m.accessor(5122, "VEC3", 4, m.view("h", figures, 8), sparse=sparse, normalized=True)
    yield "quantised-sparse", m.show(position, indices=m.indices([0, 1, 2, 0, 2, 3]))
    # And as it must not be: not padded, not required, not listed.
    for fault in ("unpadded", "only-used", "unlisted"):
        m = quantised()
        position = m.accessor(5122, "VEC3", 4,
                              m.view("h", figures, None if fault == "unpadded" else 8))
        if fault != "unpadded":
            del m.doc["extensionsRequired" if fault == "only-used" else "extensionsUsed"]
        yield f"quantised-{fault}", m.show(position, indices=m.indices([0, 1, 2, 0, 2, 3]))
    m = Model()
    sparse = {"count": 2,
              "indices": {"bufferView": m.view("H", [1, 2]), "componentType": 5123},
              "values": {"bufferView": m.view("f", [2, 0, 0, 2, 1, 0])}}
    nothing = m.accessor(5126, "VEC3", 4, sparse=sparse)
    yield "sparse", m.show(nothing, indices=m.indices([0, 1, 2, 0, 2, 3]))
    m = Model()
    m.show(m.floats(SQUARE[:9]), {"name": "leaf", "scale": [-1, 2, 3], "rotation": [0, 0, 0, 1]})
    m.doc["nodes"] += [{"name": "arm", "children": [0], "translation": [1, 2, 3]},
                       {"children": [1], "matrix": [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, -1, 0, 5, 6, 7, 1]}]
    m.doc["scene"] = 0
    m.doc["scenes"] = [{"nodes": [2]}]
    m.doc["materials"] = [{"name": "steel"}]
    m.doc["meshes"][0]["primitives"][0]["material"] = 0
    m.doc["images"] = [{"bufferView": 0, "mimeType": "image/png"}]
    yield "nested", m
    m = Model()
    features = {"schema": 1, "id": "P", "name": "plate", "kind": "steel", "material": "steel",
                "mass_kg": 0.1, "solid": {"rings": [
                    {"inner_mm": 60, "outer_mm": 80, "low_mm": 0, "high_mm": 2},
                    {"inner_mm": 80, "outer_mm": 84, "low_mm": 0, "high_mm": 2, "feature": "lug",
                     "sectors": {"count": 9, "first_deg": 0, "from_mm": -4, "to_mm": 4}}]}}
    yield "features", m.show(m.floats(SQUARE[:9]), {"name": "P", "extras": {"lugline": features}})
    m = Model()
    m.show(m.floats(SQUARE[:9]))
    data = base64.b64encode(m.binary).decode()
    m.doc["buffers"] = [{"byteLength": len(m.binary), "uri": f"data:;base64,{data}"}]
    yield "data", m
    m = Model()
    m.show(m.floats(SQUARE[:9]))
    m.doc["buffers"] = [{"byteLength": len(m.binary), "uri": "wheel%20one.bin"}]
    yield "beside", m


def repacked(glb):
    length = struct.unpack_from("<I", glb, 12)[0]
    return b"J" + glb[20:20 + length].rstrip() + b"\0" + glb[28 + length:]


def main():
    out = pathlib.Path(sys.argv[1])
    out.mkdir(parents=True, exist_ok=True)
    for name, model in models():
        (out / name).write_bytes(model.packed())
    for name in sys.argv[2:]:
        glb = pathlib.Path(name).read_bytes()
        (out / (pathlib.Path(name).stem + ".glb")).write_bytes(glb)
        (out / pathlib.Path(name).stem).write_bytes(repacked(glb))


main()
