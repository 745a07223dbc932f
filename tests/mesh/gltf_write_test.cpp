// What write_glb writes: read back, and looked at byte by byte.
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

Vec3 as_float(const Vec3& v) {
  return {static_cast<float>(v.x), static_cast<float>(v.y), static_cast<float>(v.z)};
}

void check_round_trip(const Mesh& written, const Mesh& read) {
  REQUIRE(read.positions_m.size() == written.positions_m.size());
  for (std::size_t i = 0; i < written.positions_m.size(); ++i) {
    CHECK(read.positions_m[i] == as_float(written.positions_m[i]));
    // Half a step of a 16-bit figure in each direction.
    CHECK(length(read.normals[i] - written.normals[i]) < 3e-5);
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

TEST_CASE("what is written reads back equal, to a float") {
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

TEST_CASE("least and most positions are those of the floats in the file") {
  const auto samples = samples::all();
  const json doc = json_of(write_glb(samples[0].parts));
  const Bounds bounds = bounds_of(*samples[0].parts[0].mesh);
  const json& low = doc["accessors"][0]["min"];
  const json& high = doc["accessors"][0]["max"];
  // (x, y, z) here is (x, z, -y) there.
  CHECK(low[0].get<double>() == static_cast<float>(bounds.low_m.x));
  CHECK(low[1].get<double>() == static_cast<float>(bounds.low_m.z));
  CHECK(low[2].get<double>() == static_cast<float>(-bounds.high_m.y));
  CHECK(high[2].get<double>() == static_cast<float>(-bounds.low_m.y));
}

TEST_CASE("nothing is still a GLB, and says that it holds nothing") {
  const auto glb = write_glb({});
  CHECK(json_of(glb)["asset"]["version"] == "2.0");
  CHECK(files::problem(files::read(glb)) == "no node of the scene has a mesh");
}
