// What write_glb writes: read back, and looked at byte by byte.
#include "scene/mesh/closed.h"
#include "tests/mesh/gltf_files.h"
#include "tests/mesh/sample_models.h"

#include <random>
#include <set>

using namespace lugline;
using files::json;

namespace {

json json_of(const std::vector<unsigned char>& glb) {
  std::uint32_t length = 0;
  std::memcpy(&length, glb.data() + 12, 4);
  return json::parse(glb.begin() + 20, glb.begin() + 20 + length);
}

/// What a position may be off by in one direction: half of the step that the file
/// counts in, or what a 32-bit float loses.
double off_by_m(const Mesh& mesh) {
  const Bounds b = bounds_of(mesh);
  const double wide_m =
      std::max({b.high_m.x - b.low_m.x, b.high_m.y - b.low_m.y, b.high_m.z - b.low_m.z});
  for (const double step_m : {1e-7, 2e-7, 2.5e-7, 5e-7, 1e-6, 2e-6, 2.5e-6, 5e-6, 1e-5}) {
    if (wide_m < 65533 * step_m) {
      return 0.5001 * std::max(step_m, 1e-7);
    }
  }
  return std::max(length(b.low_m), length(b.high_m)) * 0x1p-24;
}

bool near(const Vec3& a, const Vec3& b, double off_m) {
  return std::abs(a.x - b.x) <= off_m && std::abs(a.y - b.y) <= off_m &&
         std::abs(a.z - b.z) <= off_m;
}

void check_round_trip(const Mesh& written, const Mesh& read) {
  REQUIRE(read.positions_m.size() == written.positions_m.size());
  const double off_m = off_by_m(written);
  for (std::size_t i = 0; i < written.positions_m.size(); ++i) {
    CHECK(near(read.positions_m[i], written.positions_m[i], off_m));
    // Half a step of an 8-bit figure in each direction: 0.39 degrees.
    CHECK(length(read.normals[i] - written.normals[i]) < 0.5001 / 127 * std::sqrt(3));
  }
  CHECK(read.triangles == written.triangles);
  REQUIRE(read.ranges.size() == written.ranges.size());
  for (std::size_t i = 0; i < read.ranges.size(); ++i) {
    CHECK(read.ranges[i].material == written.ranges[i].material);
    CHECK(read.ranges[i].first_triangle == written.ranges[i].first_triangle);
    CHECK(read.ranges[i].triangle_count == written.ranges[i].triangle_count);
  }
}

} // namespace

TEST_CASE("what is written reads back equal, to its quantisation") {
  for (const samples::Sample& sample : samples::all()) {
    CAPTURE(sample.name);
    if (sample.parts.empty()) {
      continue; // its own case below
    }
    const auto read = files::nodes(files::read(write_glb(sample.parts)));
    std::size_t at = 0;
    for (const ModelPart& part : sample.parts) {
      if (part.mesh == nullptr) {
        continue;
      }
      CAPTURE(part.name);
      REQUIRE(at < read.size());
      CHECK(read[at].name == part.name);
      CHECK(read[at].path == part.name);
      check_round_trip(*part.mesh, read[at].mesh);
      if (part.extras_json.empty()) {
        CHECK(read[at].extras_json.empty());
      } else {
        CHECK(json::parse(read[at].extras_json) == json::parse(part.extras_json));
      }
      ++at;
    }
    CHECK(at == read.size());
  }
}

TEST_CASE("random meshes survive the round trip") {
  std::mt19937_64 bits(99);
  const auto real = [&] { return static_cast<double>(bits() >> 11) * 0x1p-52 - 1; };
  for (int round = 0; round < 40; ++round) {
    Mesh mesh;
    const auto vertices = static_cast<std::uint32_t>(3 + bits() % 60);
    for (std::uint32_t i = 0; i < vertices; ++i) {
      mesh.positions_m.push_back({real(), real() * 1e-3, real() * 1e3});
      mesh.normals.push_back(unit_or({real(), real(), real()}, {0, 0, 1}));
    }
    for (std::uint32_t i = 0; i < vertices; ++i) { // every vertex is used
      const auto other = static_cast<std::uint32_t>(bits() % vertices);
      mesh.triangles.push_back({i, (i + 1) % vertices, other});
    }
    shapes::all_of(mesh, "steel");
    const auto read = files::nodes(files::read(write_glb({{"p", &mesh, ""}})));
    REQUIRE(read.size() == 1);
    check_round_trip(mesh, read[0].mesh);
  }
}

TEST_CASE("the same parts give the same bytes") {
  for (const samples::Sample& sample : samples::all()) {
    const auto other = samples::all(); // other addresses
    const auto same = std::find_if(other.begin(), other.end(),
                                   [&](const samples::Sample& s) { return s.name == sample.name; });
    CHECK(write_glb(sample.parts) == write_glb(same->parts));
  }
}

TEST_CASE("a GLB is laid out as it should be") {
  for (const samples::Sample& sample : samples::all()) {
    const auto glb = write_glb(sample.parts);
    CAPTURE(sample.name);
    CHECK(glb.size() % 4 == 0);
    const json doc = json_of(glb);
    CHECK(doc["asset"]["generator"] == "Lugline");
    for (const json& view : doc.value("bufferViews", json::array())) {
      CHECK(view["byteOffset"].get<int>() % 4 == 0);
    }
    for (const json& accessor : doc.value("accessors", json::array())) {
      const json& view = doc["bufferViews"][accessor["bufferView"].get<std::size_t>()];
      CHECK(view.contains("byteStride") == (accessor["type"] == "VEC3"));
      if (accessor["type"] == "VEC3") {
        CHECK(accessor["byteOffset"].get<int>() % 4 == 0);
      }
    }
    for (const json& node : doc.value("nodes", json::array())) {
      CHECK_FALSE(node.contains("rotation")); // the axis is turned in the data
      CHECK_FALSE(node.contains("matrix"));
      CHECK_FALSE(node.contains("children"));
    }
  }
}

TEST_CASE("indices are 16-bit where they fit") {
  const auto samples = samples::all();
  const json doc = json_of(write_glb(samples[2].parts));
  std::vector<int> kinds;
  for (const json& mesh : doc["meshes"]) {
    kinds.push_back(
        doc["accessors"][mesh["primitives"][0]["indices"].get<std::size_t>()]["componentType"]);
  }
  CHECK(kinds == std::vector<int>{5125, 5123});
}

TEST_CASE("parts that share a mesh share it in the file") {
  const auto samples = samples::all();
  const json doc = json_of(write_glb(samples[1].parts));
  const json& nodes = doc["nodes"];
  CHECK(nodes[10]["mesh"] == nodes[11]["mesh"]);
  CHECK_FALSE(nodes[12].contains("mesh"));
}

TEST_CASE("a material is written once, and the unknown in plain grey") {
  const auto samples = samples::all();
  const json doc = json_of(write_glb(samples[1].parts));
  CHECK(doc["materials"].size() == 9); // "" is none
  std::set<std::string> names;
  std::set<std::string> colours;
  for (const json& material : doc["materials"]) {
    CHECK(names.insert(material["name"]).second);
    colours.insert(material["pbrMetallicRoughness"].dump());
  }
  CHECK(colours.size() == 9); // each is told from the others
}

TEST_CASE("least and most positions are those of the figures in the file") {
  const auto samples = samples::all();
  const json doc = json_of(write_glb(samples[0].parts));
  const Bounds bounds = bounds_of(*samples[0].parts[0].mesh);
  const json& low = doc["accessors"][0]["min"];
  const json& high = doc["accessors"][0]["max"];
  const double step_m = doc["nodes"][0]["scale"][0];
  CHECK(step_m == 2.5e-6); // 75.1 mm either way is beyond 32767 steps of 2 micrometres
  CHECK(doc["accessors"][0]["componentType"] == 5122);
  // (x, y, z) here is (x, z, -y) there.
  CHECK(low[0] == std::lround(bounds.low_m.x / step_m));
  CHECK(low[1] == std::lround(bounds.low_m.z / step_m));
  CHECK(low[2] == std::lround(-bounds.high_m.y / step_m));
  CHECK(high[2] == std::lround(-bounds.low_m.y / step_m));
}

TEST_CASE("heights in hundredths of a millimetre are kept to the last bit or two") {
  for (const double radius_m : {0.02, 0.075, 0.11, 0.3}) {
    for (const double height_m : {1.98e-3, 2.01e-3, 15.37e-3, 0.1}) {
      const Mesh mesh = shapes::ring(radius_m, radius_m / 2, height_m, 36, "steel");
      const Bounds read =
          bounds_of(files::nodes(files::read(write_glb({{"p", &mesh, ""}})))[0].mesh);
      CAPTURE(radius_m, height_m);
      CHECK(read.low_m.z == 0);
      CHECK(std::abs(read.high_m.z - height_m) < 1e-16);
    }
  }
}

TEST_CASE("what is closed stays closed, and a part of 450 mm is off by less than 0.01 mm") {
  std::mt19937_64 bits(7);
  const auto part = [&] { return static_cast<double>(bits() >> 11) * 0x1p-53; };
  for (int round = 0; round < 30; ++round) {
    const double outer_m = round == 0 ? 0.225 : 0.01 + 0.3 * part();
    const double inner_m = outer_m * (0.3 + 0.69 * part());
    const double height_m = 0.0003 + 0.3 * part();
    // Off the origin, so that the figures are counted from elsewhere.
    const Mesh mesh = placed(samples::smooth_ring(outer_m, inner_m, height_m, 180, "steel"),
                             Placement::moved({part() - 0.5, part() - 0.5, part() - 0.5}));
    const auto read = files::nodes(files::read(write_glb({{"p", &mesh, ""}})));
    const ClosedReport report = closed_report(weld(read[0].mesh));
    CAPTURE(round, outer_m, inner_m, height_m);
    CHECK(report.closed());
    CHECK(report.manifold());
    CHECK(report.euler() == 0);
    CHECK(report.degenerate_triangles == 0);
    for (std::size_t i = 0; i < mesh.positions_m.size(); ++i) {
      REQUIRE(length(read[0].mesh.positions_m[i] - mesh.positions_m[i]) < 1e-5);
    }
  }
}

TEST_CASE("equal positions stay equal, and what is symmetrical stays so") {
  std::mt19937_64 bits(3);
  const auto real = [&] { return (static_cast<double>(bits() >> 11) * 0x1p-52 - 1) * 0.1; };
  Mesh mesh;
  for (int i = 0; i < 100; ++i) {
    const Vec3 at{real(), real(), real()};
    for (const Vec3& p : {at, at, -at}) {
      mesh.positions_m.push_back(p);
      mesh.normals.push_back({0, 0, 1});
    }
    const auto first = static_cast<std::uint32_t>(3 * i);
    mesh.triangles.push_back({first, first + 1, first + 2});
  }
  shapes::all_of(mesh, "steel");
  const Mesh read = files::nodes(files::read(write_glb({{"p", &mesh, ""}})))[0].mesh;
  for (std::size_t i = 0; i < read.positions_m.size(); i += 3) {
    CHECK(read.positions_m[i] == read.positions_m[i + 1]);
    CHECK(read.positions_m[i] == -read.positions_m[i + 2]);
  }
}

TEST_CASE("a mesh too wide for 16 bits to be exact enough keeps its floats") {
  for (const double half_m : {0.3276, 0.3277, 40.0, 1e6}) {
    const Mesh mesh = shapes::box({-half_m, -0.01, -0.01}, {half_m, 0.01, 0.01}, "steel");
    const json doc = json_of(write_glb({{"p", &mesh, ""}}));
    const bool small = half_m < 0.32767;
    CAPTURE(half_m);
    CHECK(doc["accessors"][0]["componentType"] == (small ? 5122 : 5126));
    CHECK(doc["nodes"][0].contains("scale") == small);
    CHECK(bounds_of(files::nodes(files::read(write_glb({{"p", &mesh, ""}})))[0].mesh).high_m.x ==
          (small ? Approx(half_m).margin(5e-6) : Approx(static_cast<float>(half_m))));
  }
}

TEST_CASE("what a part is stands in its own metres, whatever undoes the quantisation") {
  const Mesh mesh = placed(shapes::ring(0.05, 0.04, 0.02, 36, "steel"),
                           Placement::moved({0, 0, 0.4})); // far from its own origin
  const std::string extras = R"({"lugline":{"height_mm":420}})";
  const auto glb = write_glb({{"p", &mesh, extras}});
  const json node = json_of(glb)["nodes"][0];
  CHECK(node["extras"] == json::parse(extras));
  CHECK(node["translation"] == json({0.0, 0.41, 0.0}));
  const auto read = files::nodes(files::read(glb));
  CHECK(read[0].extras_json == extras);
  CHECK(bounds_of(read[0].mesh).high_m.z == Approx(0.42).epsilon(1e-14));
}

TEST_CASE("nothing is still a GLB, and says that it holds nothing") {
  const auto glb = write_glb({});
  CHECK(json_of(glb)["asset"]["version"] == "2.0");
  CHECK(files::problem(files::read(glb)) == "no node of the scene has a mesh");
}
