// From recipes to model files: the same bytes each time, and those that stand
// in the demo's folder.

#include "scene/mesh/gltf.h"
#include "scene/part/extras.h"
#include "scene/recipe/make.h"
#include "tests/recipe/demo.h"
#include "tests/recipe/mesh_check.h"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>

namespace lugline::test {

namespace {

std::vector<unsigned char> bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

} // namespace

TEST_CASE("the demo's models are what its recipes make, byte for byte") {
  std::uintmax_t total = 0;
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const std::filesystem::path file = demo_folder() / "parts" / (part.component.id + ".glb");
    REQUIRE(std::filesystem::exists(file));
    const std::vector<unsigned char> made = model_bytes(part);
    CHECK((made == bytes_of(file))); // they would take pages to print
    total += made.size();
  }
  // 89 lines of parts at the demo's own mean must stay below 6 MiB.
  CHECK(total * 89 / demo_book().parts.size() < 6u << 20);
}

TEST_CASE("no model stands in the demo's folder that no recipe makes") {
  for (const auto& entry : std::filesystem::directory_iterator(demo_folder() / "parts")) {
    CAPTURE(entry.path());
    bool known = false;
    for (const MadePart& part : demo_book().parts) {
      known = known || entry.path().filename() == part.component.id + ".glb";
    }
    CHECK(known);
  }
}

TEST_CASE("a model that was made can be read back as it was") {
  for (const MadePart& part : demo_book().parts) {
    const std::string& id = part.component.id;
    CAPTURE(id);
    const ModelReport model = read_model(demo_folder() / "parts" / (id + ".glb"), demo_folder());
    for (const std::string& problem : model.problems) {
      FAIL_CHECK(problem);
    }
    REQUIRE(model.nodes.size() == 1);
    const Mesh& read = model.nodes[0].mesh;
    CHECK((read.triangles == part.mesh.triangles)); // they would take pages to print
    const Topology topology = topology_of(read);
    CHECK(topology.open_edges == 0);
    CHECK(topology.shared_edges == 0);
    CHECK(topology.flat_triangles == 0);
    CHECK(topology.normals_fit);
    // The demo's largest part is counted in steps of 10 micrometres: half of one each way.
    double off_m = 0;
    REQUIRE(read.positions_m.size() == part.mesh.positions_m.size());
    for (std::size_t i = 0; i < read.positions_m.size(); ++i) {
      const Vec3& a = read.positions_m[i];
      const Vec3& b = part.mesh.positions_m[i];
      off_m = std::max({off_m, std::abs(a.x - b.x), std::abs(a.y - b.y), std::abs(a.z - b.z)});
    }
    CHECK(off_m < 5.001e-6);
    CHECK(std::abs(mesh_volume_m3(read) - mesh_volume_m3(part.mesh)) <
          off_m * body_figures(part.mesh).surface_m2);
    const auto component = component_from_extras_text(model.nodes[0].extras_json);
    REQUIRE(component);
    REQUIRE(component.value());
    CHECK(component.value()->id == id);
  }
}

TEST_CASE("making models says what was written, and leaves alone what is as it should be") {
  const std::filesystem::path folder = fresh_folder();
  const std::filesystem::path recipes = demo_folder() / "recipes.toml";
  std::vector<std::string> seen;
  const MakeReport first =
      make_models(recipes, folder, [&](std::size_t done, std::size_t of, const std::string& id) {
        CHECK(done == seen.size());
        CHECK(of == demo_book().parts.size());
        seen.push_back(id);
        return true;
      });
  CHECK(first.complaints.empty());
  CHECK(first.problems.empty());
  REQUIRE(first.models.size() == demo_book().parts.size());
  CHECK(seen.size() == first.models.size());
  for (const MadeModel& model : first.models) {
    CHECK(model.written);
    CHECK(model.triangles > 0);
    CHECK(model.mass_kg > 0);
    CHECK(std::filesystem::file_size(model.file) == model.bytes);
  }
  const MakeReport again = make_models(recipes, folder);
  REQUIRE(again.models.size() == first.models.size());
  for (const MadeModel& model : again.models) {
    CHECK_FALSE(model.written);
  }
  // One that was spoilt is made again, the others are not touched; what was left beside a
  // model by a program that was ended goes.
  const std::filesystem::path left = first.models[5].file.string() + ".part";
  std::ofstream(left) << "half a mod";
  std::ofstream(first.models[3].file, std::ios::app) << "spoilt";
  const MakeReport mended = make_models(recipes, folder);
  for (std::size_t k = 0; k < mended.models.size(); ++k) {
    CHECK(mended.models[k].written == (k == 3));
  }
  CHECK_FALSE(std::filesystem::exists(left));
  std::filesystem::remove_all(folder);
}

TEST_CASE("making can be stopped") {
  const std::filesystem::path folder = fresh_folder();
  const MakeReport report =
      make_models(demo_folder() / "recipes.toml", folder,
                  [](std::size_t done, std::size_t, const std::string&) { return done < 2; });
  CHECK(report.stopped);
  CHECK(report.models.empty());
  CHECK_FALSE(std::filesystem::exists(folder));
  std::filesystem::remove_all(folder);
}

TEST_CASE("nothing is written where the recipes have complaints, or the folder cannot be made") {
  const std::filesystem::path folder = fresh_folder();
  CHECK(make_models(demo_folder() / "no-such-file.toml", folder).complaints.size() == 1);
  CHECK_FALSE(std::filesystem::exists(folder));
  std::ofstream(folder) << "a file, no folder";
  const MakeReport report = make_models(demo_folder() / "recipes.toml", folder);
  CHECK(report.problems.size() == 1);
  CHECK(report.models.empty());
  std::filesystem::remove_all(folder);
}

TEST_CASE("finer and coarser meshes are of the same part") {
  MeshOptions coarse;
  coarse.chord_tolerance_m = 0.2e-3;
  const RecipeBook book = make_parts(demo_folder() / "recipes.toml", coarse);
  REQUIRE(book.parts.size() == demo_book().parts.size());
  for (std::size_t k = 0; k < book.parts.size(); ++k) {
    CAPTURE(book.parts[k].component.id);
    const Topology topology = topology_of(book.parts[k].mesh);
    CHECK(topology.open_edges == 0);
    CHECK(topology.triangles <= demo_book().parts[k].mesh.triangles.size());
    // A thin wall differs by more than a fiftieth: by half the tolerance all over its surface.
    const double skin_m3 = body_figures(demo_book().parts[k].mesh).surface_m2 * 0.1e-3;
    CHECK(mesh_volume_m3(book.parts[k].mesh) ==
          Approx(mesh_volume_m3(demo_book().parts[k].mesh)).epsilon(0.02).margin(skin_m3));
  }
}

} // namespace lugline::test
