// Sound glTF of every kind that is read: what comes out is what the file means.
#include "tests/mesh/gltf_files.h"
#include "tests/mesh/shapes.h"

#include "scene/mesh/closed.h"

#include <numbers>

using namespace lugline;
using namespace lugline::files;

namespace {

/// The area of a mesh whose triangles all face +z in the file, which is -y here.
double facing_area(const Mesh& mesh) {
  double area = 0;
  for (const auto& [a, b, c] : mesh.triangles) {
    const Vec3 cross_product =
        cross(mesh.positions_m[b] - mesh.positions_m[a], mesh.positions_m[c] - mesh.positions_m[a]);
    area += -cross_product.y / 2;
  }
  return area;
}

/// A box as one indexed mesh with shared corners, +y up as in a file.
File box_file(float x, float y, float z) {
  File file;
  const int positions =
      file.floats({0, 0, 0, x, 0, 0, x, y, 0, 0, y, 0, 0, 0, z, x, 0, z, x, y, z, 0, y, z});
  const int corners =
      file.indices<std::uint8_t>({0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4,
                                  2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7, 1, 2, 6, 1, 6, 5});
  file.mesh(positions)["indices"] = corners;
  return file;
}

} // namespace

TEST_CASE("the file's +y is the axis, and its front is where 12 o'clock is not") {
  const Mesh mesh = nodes(box_file(1, 2, 3))[0].mesh;
  const Bounds bounds = bounds_of(mesh);
  CHECK(bounds.low_m == Vec3{0, -3, 0});
  CHECK(bounds.high_m == Vec3{1, 0, 2});
  CHECK(body_figures(mesh).volume_m3 == Approx(6));
  CHECK(closed_report(weld(mesh)).closed());
}

TEST_CASE("a .gltf with its data inside reads like a GLB") {
  const File file = sound();
  const auto from_glb = nodes(file);
  const auto from_text = nodes(read(file.gltf_with_data()));
  REQUIRE(from_text.size() == 1);
  CHECK(from_text[0].mesh.positions_m == from_glb[0].mesh.positions_m);
  CHECK(from_text[0].mesh.triangles == from_glb[0].mesh.triangles);
}

TEST_CASE("a .gltf with a .bin beside it is read from its folder") {
  const Folder folder;
  const File file = sound();
  folder.write("parts/data/m\xc3\xbchle 1.bin", file.binary);
  const auto model = folder.write("parts/model.gltf", file.gltf("data/m%C3%BChle%201.bin"));
  CHECK(nodes(read_model(model, folder.path())).size() == 1);
  // The same, with the UTF-8 written as it is and a step that goes nowhere.
  const auto plain = folder.write("parts/plain.gltf", file.gltf("./data/m\xc3\xbchle 1.bin"));
  CHECK(nodes(read_model(plain, folder.path())).size() == 1);
}

TEST_CASE("a .bin may be longer than its buffer") {
  const Folder folder;
  File file = sound();
  Bytes longer = file.binary;
  longer.resize(longer.size() + 100, 7);
  folder.write("a.bin", longer);
  const auto model = folder.write("a.gltf", file.gltf("a.bin"));
  CHECK(nodes(read_model(model, folder.path())).size() == 1);
}

TEST_CASE("indices of 8, 16 and 32 bits, and none") {
  const auto expected = nodes(sound())[0].mesh;
  File narrow;
  narrow.mesh(narrow.floats(square))["indices"] = narrow.indices<std::uint8_t>({0, 1, 2, 0, 2, 3});
  File wide;
  wide.mesh(wide.floats(square))["indices"] = wide.indices<std::uint32_t>({0, 1, 2, 0, 2, 3});
  File bare;
  bare.mesh(bare.floats({0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 0, 0, 1, 1, 0, 0, 1, 0}));
  for (const File& file : {narrow, wide, bare}) {
    const Mesh mesh = nodes(file)[0].mesh;
    CHECK(mesh.positions_m == expected.positions_m); // all flat: no corner is shared
    CHECK(mesh.triangles == expected.triangles);
    CHECK(facing_area(mesh) == Approx(1));
  }
}

TEST_CASE("strips and fans keep their facing") {
  File strip;
  json& strip_primitive =
      strip.mesh(strip.floats({0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 1, 0, 0, 2, 0, 1, 2, 0}));
  strip_primitive["mode"] = 5;
  CHECK(nodes(strip)[0].mesh.triangles.size() == 4);
  CHECK(facing_area(nodes(strip)[0].mesh) == Approx(2));

  File fan;
  json& fan_primitive = fan.mesh(fan.floats({0, 0, 0, 1, 0, 0, 1, 1, 0, 0.5f, 1.5f, 0, 0, 1, 0}));
  fan_primitive["mode"] = 6;
  CHECK(nodes(fan)[0].mesh.triangles.size() == 3);
  CHECK(facing_area(nodes(fan)[0].mesh) == Approx(1.25));
}

TEST_CASE("a strip's stitches are dropped and do not turn what follows") {
  File strip;
  const int positions =
      strip.floats({0, 0, 0, 1, 0, 0, 0, 1, 0, 1, 1, 0, 5, 0, 0, 6, 0, 0, 5, 1, 0, 6, 1, 0});
  json& primitive = strip.mesh(positions);
  primitive["mode"] = 5;
  primitive["indices"] = strip.indices<std::uint16_t>({0, 1, 2, 3, 3, 4, 4, 5, 6, 7});
  const Mesh mesh = nodes(strip)[0].mesh;
  CHECK(mesh.triangles.size() == 4);
  CHECK(facing_area(mesh) == Approx(2));
}

TEST_CASE("points and lines beside triangles are left alone") {
  File file = sound();
  json line = {{"attributes", {{"POSITION", 0}}}, {"mode", 1}};
  file.doc["meshes"][0]["primitives"].push_back(line);
  line["mode"] = 0;
  file.doc["meshes"][0]["primitives"].push_back(line);
  CHECK(nodes(file)[0].mesh.triangles.size() == 2);
}

TEST_CASE("vertices may be interleaved, with offsets and a stride") {
  File file;
  std::vector<float> mixed;
  for (std::size_t i = 0; i < 4; ++i) {
    mixed.insert(mixed.end(), {9, 0, 0, 1, square[3 * i], square[3 * i + 1], square[3 * i + 2], 9});
  }
  const int view = file.view(bytes_of(mixed), 32);
  const int normals = file.accessor(view, 5126, 4, "VEC3");
  file.doc["accessors"].back()["byteOffset"] = 4;
  const int positions = file.accessor(view, 5126, 4, "VEC3");
  file.doc["accessors"].back()["byteOffset"] = 16;
  json& primitive = file.mesh(positions);
  primitive["attributes"]["NORMAL"] = normals;
  primitive["indices"] = file.indices<std::uint16_t>({0, 1, 2, 0, 2, 3});
  const Mesh mesh = nodes(file)[0].mesh;
  CHECK(mesh.positions_m.size() == 4); // with normals of its own a corner stays shared
  CHECK(facing_area(mesh) == Approx(1));
  CHECK(mesh.normals[0] == Vec3{0, -1, 0});
}

TEST_CASE("missing normals are flat, empty ones are the facet's, long ones are shortened") {
  CHECK(nodes(sound())[0].mesh.normals[0] == Vec3{0, -1, 0});
  File file = sound();
  const int normals = file.floats({0, 0, 0, 0, 0, 5, 0, 0, 0, 0, 0, 1});
  file.doc["meshes"][0]["primitives"][0]["attributes"]["NORMAL"] = normals;
  const Mesh mesh = nodes(file)[0].mesh;
  CHECK(mesh.positions_m.size() == 4);
  for (const Vec3& normal : mesh.normals) {
    CHECK(normal == Vec3{0, -1, 0});
  }
}

TEST_CASE("sparse positions over others, and over nothing") {
  File over = sound();
  const int where = over.view(bytes_of<std::uint16_t>({1, 2}));
  const int what = over.view(bytes_of<float>({2, 0, 0, 2, 1, 0}));
  over.doc["accessors"][0]["sparse"] = {
      {"count", 2},
      {"indices", {{"bufferView", where}, {"componentType", 5123}}},
      {"values", {{"bufferView", what}}}};
  CHECK(facing_area(nodes(over)[0].mesh) == Approx(2));

  File nothing;
  const int first = nothing.view(bytes_of<std::uint8_t>({1, 2, 3}));
  const int then = nothing.view(bytes_of<float>({3, 0, 0, 3, 1, 0, 0, 1, 0}));
  const int positions = nothing.accessor(-1, 5126, 4, "VEC3");
  nothing.doc["accessors"].back()["sparse"] = {
      {"count", 3},
      {"indices", {{"bufferView", first}, {"componentType", 5121}}},
      {"values", {{"bufferView", then}}}};
  nothing.mesh(positions)["indices"] = nothing.indices<std::uint16_t>({0, 1, 2, 0, 2, 3});
  CHECK(facing_area(nodes(nothing)[0].mesh) == Approx(3));
}

TEST_CASE("sparse indices over others") {
  File file = sound();
  const int where = file.view(bytes_of<std::uint32_t>({5}));
  const int what = file.view(bytes_of<std::uint16_t>({1})); // 0 2 3 becomes 0 2 1: turned over
  file.doc["accessors"][1]["sparse"] = {
      {"count", 1},
      {"indices", {{"bufferView", where}, {"componentType", 5125}}},
      {"values", {{"bufferView", what}}}};
  CHECK(facing_area(nodes(file)[0].mesh) == Approx(0).margin(1e-12));
}

TEST_CASE("quantised positions and normals of every kind") {
  struct Kind {
    int component;
    bool normalized;
    double scale; ///< of the figure 100
    Bytes bytes;
  };
  const auto of = [](auto figure) {
    using Figure = decltype(figure);
    std::vector<Figure> figures;
    for (const float f : square) {
      figures.push_back(static_cast<Figure>(f * 100));
      if (figures.size() * sizeof(Figure) % 4 != 0 && figures.size() % 4 == 3) {
        figures.push_back(0); // padded to whole fours
      }
    }
    return bytes_of(figures);
  };
  const std::vector<Kind> kinds{
      {5120, false, 100, of(std::int8_t{})},   {5120, true, 100 / 127.0, of(std::int8_t{})},
      {5121, false, 100, of(std::uint8_t{})},  {5121, true, 100 / 255.0, of(std::uint8_t{})},
      {5122, false, 100, of(std::int16_t{})},  {5122, true, 100 / 32767.0, of(std::int16_t{})},
      {5123, false, 100, of(std::uint16_t{})}, {5123, true, 100 / 65535.0, of(std::uint16_t{})},
  };
  for (const Kind& kind : kinds) {
    CAPTURE(kind.component, kind.normalized);
    File file;
    file.doc["extensionsUsed"] = {"KHR_mesh_quantization"};
    file.doc["extensionsRequired"] = {"KHR_mesh_quantization"};
    const int size = kind.component <= 5121 ? 1 : 2;
    const int stride = 4 * size;
    const int positions = file.accessor(file.view(kind.bytes, stride), kind.component, 4, "VEC3");
    file.doc["accessors"].back()["normalized"] = kind.normalized;
    file.mesh(positions)["indices"] = file.indices<std::uint16_t>({0, 1, 2, 0, 2, 3});
    const Bounds bounds = bounds_of(nodes(file)[0].mesh);
    CHECK(bounds.high_m.x == Approx(kind.scale).epsilon(1e-14));
    CHECK(bounds.high_m.z == Approx(kind.scale).epsilon(1e-14));
  }
}

TEST_CASE("quantised normals, the least figure of all read as -1") {
  File file = sound();
  file.doc["extensionsUsed"] = {"KHR_mesh_quantization"};
  file.doc["extensionsRequired"] = {"KHR_mesh_quantization"};
  const int view = file.view(
      bytes_of<std::int8_t>({0, 0, -128, 0, 0, 0, 127, 0, 0, 127, 0, 0, -127, 0, 0, 0}), 4);
  const int normals = file.accessor(view, 5120, 4, "VEC3");
  file.doc["accessors"].back()["normalized"] = true;
  file.doc["meshes"][0]["primitives"][0]["attributes"]["NORMAL"] = normals;
  const Mesh mesh = nodes(file)[0].mesh;
  CHECK(mesh.normals[0] == Vec3{0, 1, 0});
  CHECK(mesh.normals[1] == Vec3{0, -1, 0});
  CHECK(mesh.normals[2] == Vec3{0, 0, 1});
  CHECK(mesh.normals[3] == Vec3{-1, 0, 0});
}

TEST_CASE("a mirrored node is still outward, by the product of all mirrors above it") {
  File file = box_file(1, 2, 3);
  file.doc["nodes"][0]["scale"] = {-1, 1, 1};
  Mesh mesh = nodes(file)[0].mesh;
  CHECK(body_figures(mesh).volume_m3 == Approx(6));
  CHECK(bounds_of(mesh).low_m.x == -1);
  for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
    const Mesh flat = flat_shaded(mesh);
    CHECK(length(flat.normals[3 * t] - mesh.normals[mesh.triangles[t][0]]) < 1e-12);
  }
  // Mirrored twice: not mirrored.
  file.doc["nodes"].push_back({{"children", {0}}, {"scale", {1, 1, -2}}});
  mesh = nodes(file)[0].mesh;
  CHECK(body_figures(mesh).volume_m3 == Approx(12));
}

TEST_CASE("transforms nest: the child's first, then its parents'") {
  File file = sound();
  const double half = std::sqrt(0.5);
  file.doc["nodes"][0] = {{"mesh", 0}, {"name", "leaf"}, {"translation", {1, 0, 0}}};
  // A quarter turn about the file's +y, then raised along it.
  file.doc["nodes"].push_back(
      {{"name", "turn"}, {"children", {0}}, {"rotation", {0, half, 0, half}}});
  file.doc["nodes"].push_back({{"name", "top"},
                               {"children", {1}},
                               {"matrix", {2, 0, 0, 0, 0, 2, 0, 0, 0, 0, 2, 0, 0, 10, 0, 1}}});
  const ModelNode node = nodes(file)[0];
  CHECK(node.name == "leaf");
  CHECK(node.path == "top/turn/leaf");
  // (1..2, 0..1, 0) turns to (0, 0..1, -1..-2), doubles to (0, 0..2, -2..-4), rises by 10;
  // here that is x = 0, y = 2..4, z = 10..12.
  const Bounds bounds = bounds_of(node.mesh);
  CHECK(length(bounds.low_m - Vec3{0, 2, 10}) < 1e-12);
  CHECK(length(bounds.high_m - Vec3{0, 4, 12}) < 1e-12);
  CHECK(length(node.mesh.normals[0] - Vec3{1, 0, 0}) < 1e-12);
}

TEST_CASE("normals stay square to a surface that is stretched unevenly") {
  File file;
  file.mesh(file.floats({0, 0, 0, 1, 1, 0, 0, 0, 1}));
  file.doc["nodes"][0]["scale"] = {3, 1, 1};
  const Mesh mesh = nodes(file)[0].mesh;
  const Mesh flat = flat_shaded(mesh);
  CHECK(length(mesh.normals[0] - flat.normals[0]) < 1e-12);
}

TEST_CASE("a matrix and the like placement by parts agree") {
  File parts = sound();
  parts.doc["nodes"][0]["translation"] = {3, 4, 5};
  parts.doc["nodes"][0]["rotation"] = {0.5, 0.5, 0.5, 0.5};
  parts.doc["nodes"][0]["scale"] = {2, 3, 4};
  File matrix = sound();
  // The rotation takes x to y, y to z, z to x.
  matrix.doc["nodes"][0]["matrix"] = {0, 2, 0, 0, 0, 0, 3, 0, 4, 0, 0, 0, 3, 4, 5, 1};
  const Mesh a = nodes(parts)[0].mesh;
  const Mesh b = nodes(matrix)[0].mesh;
  for (std::size_t i = 0; i < a.positions_m.size(); ++i) {
    CHECK(length(a.positions_m[i] - b.positions_m[i]) < 1e-14);
    CHECK(length(a.normals[i] - b.normals[i]) < 1e-14);
  }
}

TEST_CASE("names that are missing or doubled still give each node a path of its own") {
  File file = sound();
  file.doc["nodes"] = json::parse(R"([
    {"name": "set", "children": [1, 2, 3, 4]},
    {"name": "plate", "mesh": 0}, {"name": "plate", "mesh": 0}, {"mesh": 0},
    {"name": "pin", "mesh": 0, "children": [5]}, {"mesh": 0}])");
  const auto read = nodes(file);
  REQUIRE(read.size() == 5);
  CHECK(read[0].name == "plate");
  CHECK(read[0].path == "set/plate[1]");
  CHECK(read[1].path == "set/plate[2]");
  CHECK(read[2].name.empty());
  CHECK(read[2].path == "set/[3]");
  CHECK(read[3].path == "set/pin");
  CHECK(read[4].path == "set/pin/[5]");
}

TEST_CASE("a node's extras come out as they are, and only its own") {
  File file = sound();
  file.doc["nodes"][0]["extras"] =
      json::parse(R"({"lugline": {"schema": 1, "id": "A \u00e4"}, "other": [1, 2.5]})");
  file.doc["meshes"][0]["extras"] = {{"not", "these"}};
  file.doc["nodes"].push_back({{"mesh", 0}});
  const auto read = nodes(file);
  REQUIRE(read.size() == 2);
  CHECK(json::parse(read[0].extras_json) == file.doc["nodes"][0]["extras"]);
  CHECK(read[1].extras_json.empty());
}

TEST_CASE("one mesh shown by two nodes is two nodes") {
  File file = sound();
  file.doc["nodes"].push_back({{"mesh", 0}, {"translation", {5, 0, 0}}});
  const auto read = nodes(file);
  REQUIRE(read.size() == 2);
  CHECK(bounds_of(read[0].mesh).low_m.x == 0);
  CHECK(bounds_of(read[1].mesh).low_m.x == 5);
}

TEST_CASE("the default scene is read; where there is none, every root") {
  File file = sound();
  file.doc["nodes"] = json::parse(R"([{"name": "a", "mesh": 0}, {"name": "b", "mesh": 0}])");
  file.doc["scenes"] = json::parse(R"([{"nodes": [0]}, {"nodes": [1]}])");
  CHECK(nodes(file).size() == 2);
  file.doc["scene"] = 1;
  REQUIRE(nodes(file).size() == 1);
  CHECK(nodes(file)[0].name == "b");
}

TEST_CASE("materials are kept by name, and neighbours of one name meet") {
  File file = sound();
  file.doc["materials"] = json::parse(R"([{"name": "steel"}, {"name": "bronze"}, {}])");
  json& primitives = file.doc["meshes"][0]["primitives"];
  primitives[0]["material"] = 0;
  primitives.push_back(primitives[0]);
  primitives.push_back(primitives[0]);
  primitives.push_back(primitives[0]);
  primitives[2]["material"] = 1;
  primitives[3]["material"] = 2;
  const Mesh mesh = nodes(file)[0].mesh;
  CHECK(slip_in(mesh).empty());
  REQUIRE(mesh.ranges.size() == 3);
  CHECK(mesh.ranges[0].material == "steel");
  CHECK(mesh.ranges[0].triangle_count == 4);
  CHECK(mesh.ranges[1].material == "bronze");
  CHECK(mesh.ranges[2].material.empty());
}

TEST_CASE("vertices that no triangle uses are left out") {
  File file;
  std::vector<float> many = square;
  many.insert(many.begin(), {1000, 1000, 1000});
  many.insert(many.end(), {-1000, 0, 0});
  const int positions = file.floats(many);
  json& primitive = file.mesh(positions);
  primitive["indices"] = file.indices<std::uint16_t>({1, 2, 3, 1, 3, 4});
  primitive["attributes"]["NORMAL"] =
      file.floats({0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1});
  const Mesh mesh = nodes(file)[0].mesh;
  CHECK(mesh.positions_m.size() == 4);
  CHECK(bounds_of(mesh).high_m.x == 1);
}

TEST_CASE("skins, morph targets, cameras, animations and images are left alone") {
  File file = sound();
  file.doc["skins"] = json::parse(R"([{"joints": [0]}])");
  file.doc["cameras"] = json::parse(R"([{"type": "orthographic"}])");
  file.doc["animations"] = json::parse(R"([{"channels": 3}])");
  file.doc["images"] =
      json::parse(R"([{"uri": "../../etc/passwd"}, {"uri": "picture.png"}, {"bufferView": 0}])");
  file.doc["textures"] = json::parse(R"([{"source": 99}])");
  file.doc["nodes"][0]["skin"] = 0;
  file.doc["nodes"][0]["camera"] = 7;
  file.doc["nodes"][0]["weights"] = {1};
  file.doc["meshes"][0]["primitives"][0]["targets"] = json::parse(R"([{"POSITION": 0}])");
  file.doc["extensionsUsed"] = {"KHR_materials_unlit", "KHR_lights_punctual"};
  file.doc["extensions"] = {{"KHR_lights_punctual", {{"lights", 3}}}};
  CHECK(nodes(file).size() == 1);
}

TEST_CASE("chunks after the binary one are passed over") {
  Bytes bytes = sound().glb();
  put_u32(bytes, 4);
  put_u32(bytes, 0x12345678);
  put_u32(bytes, 0);
  Bytes length;
  put_u32(length, bytes.size());
  std::copy(length.begin(), length.end(), bytes.begin() + 8);
  CHECK(nodes(read(bytes)).size() == 1);
}
