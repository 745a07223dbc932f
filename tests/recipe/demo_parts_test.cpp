// Every part of the demo: its mesh is closed, its mesh is its solid, its
// features are said.

#include "scene/mesh/closed.h"
#include "scene/part/extras.h"
#include "tests/recipe/contact.h"
#include "tests/recipe/demo.h"
#include "tests/recipe/mesh_check.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double pi = std::numbers::pi;

/// Parts drawn finer than their solids: the mesh is within the solid, and less.
const std::set<std::string> finer{
    "CS-RING",  "CC-SPR",  "CC-WAVE", "BAND-ANC", "MC-SPR",  "OW-ELEM", "OW-OR",
    "CC-SI",    "CC-SO",   "MC-SI",   "MC-SO",    "MC-BALL", "CS-BOLT", "RT-LRC",
    "LS-LEV",   "LS-PIST", "LS-PIN",  "LS-COV",   "US-PIN",  "US-PIST", "BAND-ANC-R",
    "PU-GEARS", "PU-FS",   "PU-OR",   "PU-BOLT",  "UC-SPR",  "UC-CUSH", "UC-BALL",
    "UC-SO",    "UC-SI",   "RT-C1",   "RT-C2",    "RT-B1"};

/// How far a part that lies crosswise may stand out of the bars that hold it: a hair at
/// their corners, and in a piston's square channel what is round in it.
double stands_out_m(const std::string& id) {
  const std::map<std::string, double> most_mm{{"LS-PIST", 2.1}, {"US-PIST", 1.7},
                                              {"LS-PIN", 0.03}, {"US-PIN", 0.03},
                                              {"LS-COV", 0.03}, {"CS-BOLT", 0.03}};
  const auto found = most_mm.find(id);
  return found == most_mm.end() ? 0 : found->second * mm;
}

/// Of a carrier's pinions the solid has the flanks band by band, within the true ones,
/// where they mesh: what of a tip or a flank stands out of it there is told by that zone.
double out_of_solid_m(const MadePart& part, const Vec3& p) {
  const double r_m = std::hypot(p.x, p.y);
  const bool meshes = part.component.kind == ComponentKind::carrier &&
                      (r_m < 26.4e-3 || (r_m > 54.6e-3 && r_m < 57.8e-3));
  return meshes ? 0.6e-3 : 0;
}

} // namespace

TEST_CASE("the demo's recipes make every part of its first part") {
  for (const Complaint& complaint : demo_book().complaints) {
    FAIL_CHECK(text_of(complaint));
  }
  std::vector<std::string> ids;
  for (const MadePart& part : demo_book().parts) {
    ids.push_back(part.component.id);
  }
  CHECK(ids ==
        std::vector<std::string>{
            "CASE-01",  "RT-WR",     "RT-OUT",   "RT-B1",   "RT-R1",   "RT-MS",   "RT-MSR",
            "RT-T1",    "RT-T4",     "RT-SUN",   "RT-C1",   "RT-C1R",  "RT-T2",   "RT-C2",
            "RT-T3",    "RT-T5",     "CS-01",    "CS-RING", "CS-T6",   "CC-PIST", "CC-SPR",
            "CC-RET",   "CC-RETR",   "CC-WAVE",  "CC-S",    "CC-F",    "CC-BP",   "CC-RING",
            "BAND-ANC", "UB-BAND",   "MC-DRUM",  "MC-PIST", "MC-SPR",  "MC-RET",  "MC-RETR",
            "MC-AP",    "MC-F",      "MC-S",     "MC-BP",   "MC-RING", "OW-IR",   "OW-ELEM",
            "OW-OR",    "OW-RET",    "OW-RETR",  "UC-DRUM", "UC-BALL", "UC-PIST", "UC-SO",
            "UC-SI",    "UC-SPR",    "UC-RET",   "UC-RETR", "UC-CUSH", "UC-S",    "UC-F",
            "UC-BP",    "UC-RING1",  "UC-RING2", "UC-T10",  "UC-HUB",  "UC-T9",   "UC-MHUB",
            "MC-T7",    "BUSH-CASE", "BUSH-CS",  "BUSH-MD", "CC-SO",   "CC-SI",   "MC-SO",
            "MC-SI",    "CS-SR",     "MC-BALL",  "CS-BOLT", "RT-LRC",  "LB-BAND", "BAND-ANC-R",
            "LS-LEV",   "LS-PIST",   "LS-PIN",   "LS-COV",  "US-PIN",  "US-PIST", "PU-COV",
            "PU-BODY",  "PU-GEARS",  "PU-FS",    "PU-SR",   "PU-T8",   "PU-OR",   "PU-GSK",
            "PU-BOLT",  "TOOL-LIFT"});
}

TEST_CASE("every part of the demo is closed, outward and a manifold") {
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const Topology topology = topology_of(part.mesh);
    CHECK(topology.triangles > 0);
    CHECK(topology.open_edges == 0);
    CHECK(topology.shared_edges == 0);
    CHECK(topology.flat_triangles == 0);
    CHECK(topology.normals_fit);
    CHECK(topology.ranges_cover);
    CHECK(slip_in(part.mesh).empty());
    const ClosedReport report = closed_report(weld(part.mesh));
    CHECK(report.closed());
    CHECK(report.manifold());
  }
}

TEST_CASE("every part of the demo has its solid's own volume, to its facets") {
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const double mesh_m3 = mesh_volume_m3(part.mesh);
    const double solid_m3 = solid_volume_m3(part.component.solid);
    if (finer.contains(part.component.id)) {
      CHECK(mesh_m3 > 0);
      CHECK(mesh_m3 < solid_m3);
    } else {
      CHECK(mesh_m3 + lost_to_facets_m3(part.mesh) == Approx(solid_m3).epsilon(1e-9));
    }
  }
}

TEST_CASE("every part's mesh lies in or on its solid, to the chord tolerance") {
  std::mt19937_64 random(11);
  const double tolerance_m = MeshOptions{}.chord_tolerance_m;
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const Solid& solid = part.component.solid;
    double low_m = 1;
    double high_m = -1;
    for (const Vec3& p : part.mesh.positions_m) {
      if (!in_solid(solid, p, out_of_solid_m(part, p) + stands_out_m(part.component.id) + 1e-8)) {
        CAPTURE(p.x, p.y, p.z);
        FAIL_CHECK("a corner outside the solid");
        break;
      }
      low_m = std::min(low_m, p.z);
      high_m = std::max(high_m, p.z);
    }
    for (int k = 0; k < 2000; ++k) {
      const Vec3 p = random_surface_point(part.mesh, random);
      if (!in_solid(solid, p,
                    out_of_solid_m(part, p) + stands_out_m(part.component.id) + tolerance_m +
                        1e-9)) {
        CAPTURE(p.x, p.y, p.z);
        FAIL_CHECK("a face outside the solid");
        break;
      }
    }
    // As high as the solid, too: what rests on it must look as if it did.
    CHECK(low_m == Approx(solid.low_m()).margin(0.06 * mm));
    CHECK(high_m == Approx(solid.high_m()).margin(0.06 * mm));
  }
}

TEST_CASE("no ring of a demo solid runs into another") {
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    std::vector<const Solid*> solids{&part.component.solid};
    for (const BandState& state : part.component.band_states) {
      solids.push_back(&state.solid);
    }
    for (const Solid* solid : solids) {
      for (std::size_t i = 0; i < solid->rings.size(); ++i) {
        for (std::size_t j = i + 1; j < solid->rings.size(); ++j) {
          const SectorRing& a = solid->rings[i];
          const SectorRing& b = solid->rings[j];
          const double deep_m = std::min(a.high_m, b.high_m) - std::max(a.low_m, b.low_m);
          if (deep_m > 1e-9) {
            CAPTURE(a.feature, b.feature);
            CHECK_FALSE(meet_in_plan(a, 0, b, 0));
          }
        }
      }
    }
  }
}

TEST_CASE("what a part is goes with it in its file") {
  for (const MadePart& part : demo_book().parts) {
    CAPTURE(part.component.id);
    const auto back = component_from_extras_text(extras_text_of(part.component));
    REQUIRE(back);
    REQUIRE(back.value());
    CHECK(back.value()->kind == part.component.kind);
    CHECK(back.value()->solid.rings.size() == part.component.solid.rings.size());
    CHECK(part.component.mass_kg > 0);
  }
}

TEST_CASE("masses are about what such parts weigh") {
  // The demo's own invented figures; within a fifteenth, as linings and cages differ.
  CHECK(demo_part("CASE-01").component.mass_kg == Approx(6.296).epsilon(0.07));
  CHECK(demo_part("CS-01").component.mass_kg == Approx(3.889).epsilon(0.07));
  CHECK(demo_part("MC-DRUM").component.mass_kg == Approx(4.083).epsilon(0.07));
  CHECK(demo_part("UC-DRUM").component.mass_kg == Approx(4.634).epsilon(0.07));
  CHECK(demo_part("UC-HUB").component.mass_kg == Approx(1.494).epsilon(0.07));
  CHECK(demo_part("UC-MHUB").component.mass_kg == Approx(1.396).epsilon(0.07));
  CHECK(demo_part("RT-R1").component.mass_kg == Approx(1.485).epsilon(0.07));
  CHECK(demo_part("RT-MS").component.mass_kg == Approx(1.271).epsilon(0.07));
  CHECK(demo_part("RT-C2").component.mass_kg == Approx(3.844).epsilon(0.07));
  CHECK(demo_part("CC-S").component.mass_kg ==
        Approx(7850 * solid_volume_m3(demo_solid("CC-S"))).epsilon(1e-9));
  // Of a wave plate the metal counts, not the room that it takes up.
  CHECK(demo_part("CC-WAVE").component.mass_kg ==
        Approx(7850 * mesh_volume_m3(demo_part("CC-WAVE").mesh)).epsilon(0.001));
}

TEST_CASE("the wave plate is drawn in waves of flat stock") {
  const MadePart& wave = demo_part("CC-WAVE");
  REQUIRE(wave.component.wave);
  CHECK(wave.component.wave->waves == 3);
  CHECK(wave.component.wave->free_m == Approx(2.8 * mm));
  CHECK(wave.component.wave->flat_m == Approx(1.8 * mm));
  // The upper face where it is crossed at a quarter of a wave is half way up.
  int highest = 0;
  int lowest = 0;
  for (std::size_t i = 0; i < wave.mesh.positions_m.size(); ++i) {
    if (wave.mesh.normals[i].z > 0.9) {
      highest += wave.mesh.positions_m[i].z > 2.75 * mm ? 1 : 0;
      lowest += wave.mesh.positions_m[i].z < 1.85 * mm ? 1 : 0;
    }
  }
  CHECK(highest > 10);
  CHECK(lowest > 10);
}

TEST_CASE("figures move what lies above them, and a step keeps its depth") {
  for (const auto& [id, step_mm] : {std::pair{"CC-BP", 0.6}, std::pair{"MC-BP", 0.8}}) {
    const Component& plate = demo_part(id).component;
    const Figure* thickness = plate.figure("thickness");
    REQUIRE(thickness != nullptr);
    const Solid thicker =
        stretched(plate.solid, thickness->zone_low_m, thickness->zone_high_m, 0.2 * mm);
    CHECK(thicker.high_m() == Approx(thickness->value_m + 0.2 * mm).margin(1e-9));
    for (const SectorRing& ring : thicker.rings) {
      if (ring.feature != "plate") {
        CHECK(thicker.high_m() - ring.high_m == Approx(step_mm * mm).margin(1e-9));
      }
    }
  }
}

TEST_CASE("the parts that can be turned over say what tells their faces apart") {
  for (const char* id :
       {"CC-BP",     "MC-BP",   "MC-AP",   "MC-F",    "CS-RING",   "CS-T6",   "OW-OR",    "OW-RET",
        "OW-ELEM",   "CC-PIST", "MC-PIST", "UC-PIST", "UC-DRUM",   "UC-BP",   "UC-T10",   "UC-HUB",
        "UC-T9",     "UC-MHUB", "MC-T7",   "MC-DRUM", "CS-01",     "CASE-01", "RT-SUN",   "UB-BAND",
        "TOOL-LIFT", "RT-OUT",  "RT-R1",   "RT-MS",   "RT-C1",     "RT-C2",   "RT-WR",    "RT-T1",
        "RT-T2",     "RT-T3",   "RT-T4",   "RT-T5",   "BUSH-CASE", "BUSH-CS", "BUSH-MD",  "CC-SO",
        "CC-SI",     "MC-SO",   "MC-SI",   "CS-SR",   "MC-BALL",   "RT-LRC",  "LB-BAND",  "LS-PIST",
        "LS-PIN",    "LS-COV",  "US-PIN",  "US-PIST", "PU-COV",    "PU-BODY", "PU-GEARS", "PU-FS",
        "PU-SR",     "PU-T8"}) {
    CAPTURE(id);
    const Component& part = demo_part(id).component;
    REQUIRE_FALSE(part.marks.empty());
    for (const Mark& mark : part.marks) {
      CHECK(mark.words.size() > 10);
      // The mark is on the part.
      CHECK(mark.radius_m <= part.solid.outer_m() + 1e-9);
      CHECK(mark.height_m >= part.solid.low_m() - 1e-9);
      CHECK(mark.height_m <= part.solid.high_m() + 1e-9);
    }
  }
}

TEST_CASE("a thrust washer's tabs, and the grooves away from them, face as written") {
  const Component& up = demo_part("RT-T1").component;
  CHECK(up.solid.low_m() == 0);
  CHECK(up.solid.high_m() / mm == Approx(1.6 + 1.2));
  CHECK(up.marks.front().words == "the tabs face up");
  const Component& down = demo_part("RT-WR").component;
  CHECK(down.solid.low_m() / mm == Approx(-1.2));
  CHECK(down.solid.high_m() / mm == Approx(2.4));
  CHECK(down.marks.back().words == "the oil grooves face up");
  CHECK(down.marks.back().height_m / mm == Approx(2.4));
}

TEST_CASE("every key of the demo fits something that is there") {
  int fitted = 0;
  for (const MadePart& part : demo_book().parts) {
    for (const Key& key : part.component.keys) {
      CAPTURE(part.component.id, key.id, key.fits);
      CHECK(key.outer_m > key.inner_m);
      CHECK(key.high_m > key.low_m);
      CHECK(key.width_m > 0);
      if (key.fits.empty()) {
        continue;
      }
      const std::size_t slash = key.fits.find('/');
      REQUIRE(slash != std::string::npos);
      const Component& mate = demo_part(key.fits.substr(0, slash)).component;
      bool found = false;
      for (const Key& other : mate.keys) {
        found = found || other.id == key.fits.substr(slash + 1);
      }
      CHECK(found);
      ++fitted;
    }
  }
  CHECK(fitted >= 10);
}

TEST_CASE("the demo's models stay small") {
  std::size_t triangles = 0;
  for (const MadePart& part : demo_book().parts) {
    triangles += part.mesh.triangles.size();
  }
  CHECK(triangles < 400000);
}

} // namespace lugline::test
