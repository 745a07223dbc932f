// Involute teeth, splines and planetary carriers as recipes: what they make, and what
// they are told when they cannot be.

#include "scene/mesh/closed.h"
#include "scene/recipe/involute.h"
#include "scene/recipe/recipe.h"
#include "tests/recipe/contact.h"
#include "tests/recipe/demo.h"
#include "tests/recipe/mesh_check.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <string>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double pi = std::numbers::pi;

RecipeBook book_of(const std::string& text) {
  const std::filesystem::path folder = fresh_folder();
  std::filesystem::create_directories(folder);
  std::ofstream(folder / "recipes.toml") << text;
  RecipeBook book = make_parts(folder / "recipes.toml");
  std::filesystem::remove_all(folder);
  return book;
}

/// The text with one line's figure replaced, or a line added where the name is new.
std::string with(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  REQUIRE(at != std::string::npos);
  return text.replace(at, from.size(), to);
}

void check_told(const std::string& text, const std::string& figure, const std::string& why) {
  const RecipeBook book = book_of(text);
  CAPTURE(figure, why);
  REQUIRE(book.complaints.size() == 1);
  CAPTURE(text_of(book.complaints.front()));
  CHECK(book.complaints.front().message.find(": " + figure + " ") != std::string::npos);
  CHECK(book.complaints.front().message.find(why) != std::string::npos);
  CHECK(book.complaints.front().line > 0);
  CHECK(book.parts.empty());
}

const std::string sun = R"(schema = 1
[[part]]
id = "SUN"
name = "Sun gear"
recipe = "shaft"
  [[part.section]]
  bore = "30 mm"
  outside = "45.75 mm"
  from = "0 mm"
  to = "65 mm"
  [[part.teeth]]
  form = "involute"
  in = "shaft"
  module = "1.5 mm"
  teeth = 33
  thinning = "0.04 mm"
  from = "0 mm"
  to = "65 mm"
)";

const std::string ring = R"([[part]]
id = "RING"
name = "Ring gear"
recipe = "ring gear"
  [[part.section]]
  bore = "116.25 mm"
  outside = "130 mm"
  from = "0 mm"
  to = "24 mm"
  [[part.teeth]]
  form = "involute"
  in = "bore"
  module = "1.5 mm"
  teeth = 75
  thinning = "0.04 mm"
  first_tooth_at = "2.4 deg"
  from = "0 mm"
  to = "24 mm"
)";

const std::string carrier = R"([[part]]
id = "CARRIER"
name = "Carrier"
recipe = "planetary carrier"
  [[part.section]]
  bore = "55 mm"
  outside = "108 mm"
  from = "0 mm"
  to = "5 mm"
  [[part.section]]
  bore = "55 mm"
  outside = "108 mm"
  from = "27 mm"
  to = "34 mm"
  [[part.pad]]
  inner = "64 mm"
  outer = "106 mm"
  from = "5 mm"
  to = "27 mm"
  width = "16 mm"
  count = 4
  at = "45 deg"
  [[part.pinions]]
  pinions = 4
  teeth = 21
  module = "1.5 mm"
  thinning = "0.04 mm"
  sun_teeth = 33
  ring_teeth = 75
  circle = "81 mm"
  from = "5.6 mm"
  to = "26 mm"
  space_from = "5 mm"
  space_to = "27 mm"
  washers = "0.6 mm"
  washers_outside = "24 mm"
  pin = "10 mm"
  pin_from = "0.2 mm"
  pin_to = "33.8 mm"
  fits = "SUN/gear tooth"
)";

const std::string splined = R"(schema = 1
[[part]]
id = "HUB"
name = "Hub"
recipe = "hub"
  [[part.section]]
  bore = "39.2 mm"
  outside = "50 mm"
  from = "0 mm"
  to = "10 mm"
  [[part.teeth]]
  form = "spline"
  in = "bore"
  diametral_pitch = 16
  teeth = 24
  root = "39.2 mm"
  from = "0 mm"
  to = "10 mm"
)";

} // namespace

TEST_CASE("a turned part's involute teeth are the gear's own") {
  const RecipeBook book = book_of(sun);
  REQUIRE(book.complaints.empty());
  const Component& part = book.parts.front().component;
  CHECK(part.solid.outer_m() / mm == Approx(26.25));
  Gear gear = rack_gear(false, 33, 1.5 * mm, 20 * pi / 180, 0, 0.04 * mm);
  REQUIRE(part.keys.size() == 1);
  CHECK(part.keys.front().width_m == Approx(gear.tooth_thickness_m()));
  int bands = 0;
  for (const SectorRing& band : part.solid.rings) {
    if (!band.full()) {
      ++bands;
      CHECK(band.sectors.size() == 33);
      // A tooth stands at 12 o'clock.
      CHECK(band.sectors.front().from.at(band.inner_m) < 0);
      CHECK(band.sectors.front().to.at(band.inner_m) > 0);
    }
  }
  CHECK(bands >= 3);
}

TEST_CASE("impossible teeth are told by their figure") {
  check_told(with(sun, "thinning = \"0.04 mm\"", "thinning = \"3 mm\""), "thinning",
             "leaves nothing");
  check_told(with(sun, "teeth = 33", "teeth = 12\n  root = \"15 mm\""), "profile_shift",
             "at least 0.30");
  check_told(with(sun, "teeth = 33", "teeth = 33\n  tip = \"58 mm\""), "tip",
             "come to a point at 54");
  check_told(with(sun, "teeth = 33", "teeth = 33\n  tip = \"46.3 mm\""), "tip",
             "below the base circle of 46.51 mm");
  check_told(with(sun, "teeth = 33", "teeth = 33\n  root = \"53 mm\""), "root",
             "must be less than the tip (52.50 mm)");
  check_told(with(sun, "teeth = 33", "teeth = 33\n  pressure_angle = \"50 deg\""), "pressure_angle",
             "not between 10 and 35");
  check_told(with(sun, "teeth = 33", "teeth = 33\n  profile_shift = 7"), "profile_shift",
             "a number from -2 to 2");
  check_told(with(sun, "teeth = 33", "teeth = 33\n  diametral_pitch = 16"), "diametral_pitch",
             "write one of them");
  check_told(with(sun, "module = \"1.5 mm\"", "module = 1.5"), "module", "has no unit");
  check_told(with(sun, "\"involute\"", "\"cycloid\""), "form", "one of plain, involute, spline");
  const std::string bore = "schema = 1\n" + ring;
  check_told(with(bore, "teeth = 75", "teeth = 75\n  tip = \"105 mm\""), "tip",
             "below the base circle of 105.72 mm");
  check_told(with(bore, "teeth = 75", "teeth = 75\n  root = \"120 mm\""), "root",
             "beyond where the spaces end");
  check_told(with(bore, "teeth = 75", "teeth = 75\n  tip = \"117 mm\""), "root",
             "must be more than the tip");
}

TEST_CASE("impossible splines are told by their figure") {
  REQUIRE(book_of(splined).complaints.empty());
  check_told(with(splined, "teeth = 24", "teeth = 24\n  pressure_angle = \"20 deg\""),
             "pressure_angle", "none of 30, 37.5 and 45");
  check_told(with(splined, "teeth = 24",
                  "teeth = 24\n  pressure_angle = \"45 deg\"\n  root_form = \"flat\""),
             "root_form", "at 30 degrees only");
  check_told(with(splined, "diametral_pitch = 16", "diametral_pitch = 0"), "diametral_pitch",
             "a number from 1 to 128");
}

TEST_CASE("impossible carriers are told by their figure") {
  const std::string all = "schema = 1\n" + carrier;
  check_told(with(all, "pinions = 4", "pinions = 5"), "pinions",
             "108 teeth together, which is no multiple of 5");
  check_told(with(all, "ring_teeth = 75", "ring_teeth = 74"), "teeth", "33 + 2 x 21 = 75");
  check_told(with(all, "circle = \"81 mm\"", "circle = \"80 mm\""), "circle", "81.00 mm");
  check_told(with(all, "pinions = 4", "pinions = 9"), "pinions", "run into one another");
  check_told(with(all, "space_to = \"27 mm\"", "space_to = \"26.5 mm\""), "to",
             "do not lie in the space");
  check_told(with(all, "width = \"16 mm\"", "width = \"44 mm\""), "pinions", "take up the same");
  check_told(with(all, "pin = \"10 mm\"", "pin = \"24 mm\""), "pin", "must be less");
  check_told(with(all, "pin_from = \"0.2 mm\"", "pin_from = \"6 mm\""), "pin_from",
             "must be less than space_from");
  check_told(all.substr(0, all.find("  [[part.pinions]]")), "pinions", "0 were read");
}

TEST_CASE("a carrier is drawn closed, its pinions and pins bodies of their own, in its solid") {
  const RecipeBook book = book_of("schema = 1\n" + carrier);
  for (const Complaint& complaint : book.complaints) {
    FAIL_CHECK(text_of(complaint));
  }
  REQUIRE(book.parts.size() == 1);
  const MadePart& part = book.parts.front();
  CHECK(part.component.kind == ComponentKind::carrier);
  const Topology topology = topology_of(part.mesh);
  CHECK(topology.open_edges == 0);
  CHECK(topology.shared_edges == 0);
  CHECK(topology.flat_triangles == 0);
  CHECK(topology.normals_fit);
  CHECK(topology.ranges_cover);
  CHECK(closed_report(weld(part.mesh)).closed());
  CHECK(part.component.mass_kg > 0.5);
  // Its bounds in the drop hold all that is drawn but a part of the pinions' flanks and
  // tips in the two zones where they mesh, which they bound from within.
  for (const Vec3& p : part.mesh.positions_m) {
    if (!in_solid(part.component.solid, p, 1e-6)) {
      const double r_mm = std::hypot(p.x, p.y) / mm;
      CAPTURE(r_mm, p.z);
      CHECK((r_mm < 26.35 || r_mm > 54.65));
      CHECK(in_solid(part.component.solid, p, 0.6 * mm));
    }
  }
}

TEST_CASE("a carrier tells the figures that its pinions' end play is made of") {
  const RecipeBook book = book_of("schema = 1\n" + carrier);
  REQUIRE(book.parts.size() == 1);
  const Component& made = book.parts.front().component;
  REQUIRE(made.figure("pinion slot"));
  CHECK(made.figure("pinion slot")->value_m == Approx(22.0 * mm));
  REQUIRE(made.figure("pinion length"));
  CHECK(made.figure("pinion length")->value_m == Approx(20.4 * mm));
  REQUIRE(made.figure("pinion washer"));
  CHECK(made.figure("pinion washer")->value_m == Approx(0.6 * mm));
}

TEST_CASE("a carrier drops over its sun and into its ring at every pitch, and no further out") {
  const RecipeBook book = book_of(sun + ring + carrier);
  for (const Complaint& complaint : book.complaints) {
    FAIL_CHECK(text_of(complaint));
  }
  REQUIRE(book.parts.size() == 3);
  const Solid& sun_solid = book.parts[0].component.solid;
  const Solid& ring_solid = book.parts[1].component.solid;
  const Solid& carrier_solid = book.parts[2].component.solid;
  const auto rests_m = [&](double turn_rad, const Solid& below) {
    return rest_height(carrier_solid, turn_rad, {&below, 0, 0});
  };
  for (const int k : {0, 1, 7, 32}) {
    CAPTURE(k);
    // Through the sun: nothing in its zone meets it. Its bore and plates pass it too.
    CHECK_FALSE(rests_m(2 * pi * k / 33, sun_solid));
    // Half a pitch off, the pinions stand on its teeth.
    REQUIRE(rests_m(2 * pi * (k + 0.5) / 33, sun_solid));
    CHECK(*rests_m(2 * pi * (k + 0.5) / 33, sun_solid) / mm == Approx(65 - 5.6));
  }
  for (const int k : {0, 1, 40}) {
    CAPTURE(k);
    CHECK_FALSE(rests_m(2 * pi * k / 75, ring_solid));
    REQUIRE(rests_m(2 * pi * (k + 0.5) / 75, ring_solid));
    CHECK(*rests_m(2 * pi * (k + 0.5) / 75, ring_solid) / mm == Approx(24 - 5.6));
  }
  // The backlash, 0.08 mm at each, is about what it may turn: half of it free, twice not.
  const double free_rad = 0.03 / 24.75;
  const double tight_rad = 0.16 / 24.75;
  for (const double side : {-1.0, 1.0}) {
    CHECK_FALSE(rests_m(side * free_rad, sun_solid));
    CHECK(rests_m(side * tight_rad, sun_solid));
    CHECK_FALSE(rests_m(side * 0.03 / 56.25, ring_solid));
    CHECK(rests_m(side * 0.16 / 56.25, ring_solid));
  }
}

} // namespace lugline::test
