// Extras written and read back: nothing may move, and people must be able to read them.
#include "scene/part/extras.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <numbers>
#include <random>

using namespace lugline;
using nlohmann::json;

namespace {

constexpr double pi = std::numbers::pi;
constexpr double length_within_m = 1e-12;             // 1e-9 mm
constexpr double angle_within_rad = 1e-10 * pi / 180; // 1e-10 deg

bool close_m(double a, double b) {
  return std::abs(a - b) <= length_within_m;
}
bool close_rad(double a, double b) {
  return std::abs(a - b) <= angle_within_rad;
}

bool same(const Flank& a, const Flank& b) {
  return close_rad(a.angle_rad, b.angle_rad) && close_m(a.offset_m, b.offset_m);
}

void check_same(const Solid& a, const Solid& b) {
  REQUIRE(a.rings.size() == b.rings.size());
  for (std::size_t i = 0; i < a.rings.size(); ++i) {
    const SectorRing& left = a.rings[i];
    const SectorRing& right = b.rings[i];
    CHECK(close_m(left.inner_m, right.inner_m));
    CHECK(close_m(left.outer_m, right.outer_m));
    CHECK(close_m(left.low_m, right.low_m));
    CHECK(close_m(left.high_m, right.high_m));
    CHECK(left.feature == right.feature);
    CHECK(left.material == right.material);
    REQUIRE(left.sectors.size() == right.sectors.size());
    for (std::size_t k = 0; k < left.sectors.size(); ++k) {
      CAPTURE(i, k);
      CHECK(same(left.sectors[k].from, right.sectors[k].from));
      CHECK(same(left.sectors[k].to, right.sectors[k].to));
    }
  }
}

void check_same_figures(const Component& a, const Component& b) {
  REQUIRE(a.figures.size() == b.figures.size());
  for (std::size_t i = 0; i < a.figures.size(); ++i) {
    CHECK(a.figures[i].name == b.figures[i].name);
    CHECK(close_m(a.figures[i].value_m, b.figures[i].value_m));
    CHECK(close_m(a.figures[i].zone_low_m, b.figures[i].zone_low_m));
    CHECK(close_m(a.figures[i].zone_high_m, b.figures[i].zone_high_m));
  }
  REQUIRE(a.wave.has_value() == b.wave.has_value());
  if (a.wave) {
    CHECK(close_m(a.wave->free_m, b.wave->free_m));
    CHECK(close_m(a.wave->flat_m, b.wave->flat_m));
    CHECK(a.wave->waves == b.wave->waves);
  }
  REQUIRE(a.springs.has_value() == b.springs.has_value());
  if (a.springs) {
    CHECK(close_m(a.springs->free_m, b.springs->free_m));
    CHECK(close_m(a.springs->solid_m, b.springs->solid_m));
    CHECK(std::abs(a.springs->rate_N_per_m - b.springs->rate_N_per_m) <= 1e-6); // 1e-9 N/mm
  }
  REQUIRE(a.ring.has_value() == b.ring.has_value());
  if (a.ring) {
    CHECK(a.ring->in_bore == b.ring->in_bore);
    CHECK(close_m(a.ring->free_m, b.ring->free_m));
    CHECK(close_m(a.ring->squeezed_m, b.ring->squeezed_m));
    CHECK(close_m(a.ring->thickness_m, b.ring->thickness_m));
    CHECK(close_m(a.ring->width_m, b.ring->width_m));
    CHECK(close_rad(a.ring->gap_rad, b.ring->gap_rad));
    CHECK(a.ring->bevelled == b.ring->bevelled);
    CHECK(close_m(a.ring->reversed_play_m, b.ring->reversed_play_m));
    CHECK(close_m(a.ring->free_height_m, b.ring->free_height_m));
  }
}

void check_same_places(const Component& a, const Component& b) {
  REQUIRE(a.grooves.size() == b.grooves.size());
  for (std::size_t i = 0; i < a.grooves.size(); ++i) {
    CHECK(a.grooves[i].id == b.grooves[i].id);
    CHECK(a.grooves[i].in_bore == b.grooves[i].in_bore);
    CHECK(a.grooves[i].loads_up == b.grooves[i].loads_up);
    CHECK(close_m(a.grooves[i].low_m, b.grooves[i].low_m));
    CHECK(close_m(a.grooves[i].high_m, b.grooves[i].high_m));
    CHECK(close_m(a.grooves[i].bottom_m, b.grooves[i].bottom_m));
    CHECK(close_m(a.grooves[i].land_m, b.grooves[i].land_m));
  }
  REQUIRE(a.keys.size() == b.keys.size());
  for (std::size_t i = 0; i < a.keys.size(); ++i) {
    CHECK(a.keys[i].id == b.keys[i].id);
    CHECK(a.keys[i].fits == b.keys[i].fits);
    CHECK(close_rad(a.keys[i].angle_rad, b.keys[i].angle_rad));
    CHECK(close_m(a.keys[i].inner_m, b.keys[i].inner_m));
    CHECK(close_m(a.keys[i].outer_m, b.keys[i].outer_m));
    CHECK(close_m(a.keys[i].low_m, b.keys[i].low_m));
    CHECK(close_m(a.keys[i].high_m, b.keys[i].high_m));
    CHECK(close_m(a.keys[i].width_m, b.keys[i].width_m));
  }
  REQUIRE(a.marks.size() == b.marks.size());
  for (std::size_t i = 0; i < a.marks.size(); ++i) {
    CHECK(a.marks[i].words == b.marks[i].words);
    CHECK(close_m(a.marks[i].radius_m, b.marks[i].radius_m));
    CHECK(close_rad(a.marks[i].angle_rad, b.marks[i].angle_rad));
    CHECK(close_m(a.marks[i].height_m, b.marks[i].height_m));
  }
  REQUIRE(a.band_states.size() == b.band_states.size());
  for (std::size_t i = 0; i < a.band_states.size(); ++i) {
    CHECK(a.band_states[i].id == b.band_states[i].id);
    check_same(a.band_states[i].solid, b.band_states[i].solid);
  }
}

void check_same(const Component& a, const Component& b) {
  CHECK(a.id == b.id);
  CHECK(a.name == b.name);
  CHECK(a.kind == b.kind);
  CHECK(a.material == b.material);
  CHECK(a.mass_kg == b.mass_kg);
  check_same(a.solid, b.solid);
  check_same_figures(a, b);
  check_same_places(a, b);
}

/// Components that a bench could hold, with figures that are no round numbers.
class Maker {
public:
  explicit Maker(std::uint64_t seed) : bits_(seed) {}

  double real(double low, double high) {
    return low + (high - low) * static_cast<double>(bits_() >> 11) * 0x1p-53;
  }
  int whole(int low, int high) {
    return low + static_cast<int>(bits_() % static_cast<std::uint64_t>(high - low + 1));
  }
  bool coin() { return whole(0, 1) == 1; }
  std::string word() {
    static const std::vector<std::string> some{"lug", "step \"up\"", "Zahn \xc3\xa4", "a/b\\c",
                                               "tooth"};
    return some[static_cast<std::size_t>(whole(0, 4))] + std::to_string(whole(0, 99));
  }

  std::vector<Sector> sectors(double inner_m) {
    const int count = whole(1, 48);
    const double pitch = 2 * pi / count;
    const double share = real(0.1, 0.8);
    // Narrow enough that parallel flanks stay apart at the inner radius.
    const double width_m = coin() ? 2 * inner_m * std::sin(std::min(pitch * share, 3.0) / 2) : 0;
    const double start = real(-7, 7);
    const bool even = coin();
    std::vector<Sector> list;
    for (int i = 0; i < count; ++i) {
      double at = start + 2 * pi * i / count;
      if (!even) {
        at += real(-0.04, 0.04) * pitch;
      } else if (coin()) {
        at +=
            real(-1, 1) * 2e-13; // nearly even: the file may round it, but no further than it says
      }
      if (width_m > 0) {
        list.push_back({{at, -width_m / 2}, {at, width_m / 2}});
      } else {
        list.push_back({{at, 0}, {at + pitch * share, 0}});
      }
    }
    return list;
  }

  Solid solid() {
    Solid made;
    const int rings = whole(0, 6);
    for (int i = 0; i < rings; ++i) {
      SectorRing ring;
      ring.inner_m = real(0.005, 0.2);
      ring.outer_m = ring.inner_m + real(1e-5, 0.05);
      ring.low_m = real(-0.1, 0.3);
      ring.high_m = ring.low_m + real(1e-6, 0.1);
      if (coin()) {
        ring.sectors = sectors(ring.inner_m);
      }
      ring.feature = coin() ? word() : "";
      ring.material = coin() ? "friction lining" : "";
      made.rings.push_back(ring);
    }
    return made;
  }

  Component component() {
    Component made;
    made.id = word();
    made.name = word();
    made.kind = static_cast<ComponentKind>(whole(0, static_cast<int>(ComponentKind::other)));
    made.material = coin() ? "steel" : "";
    made.mass_kg = coin() ? real(0, 30) : 0;
    made.solid = solid();
    for (int i = whole(0, 3); i > 0; --i) {
      const double low = real(-0.1, 0.1);
      made.figures.push_back(
          {word() + std::to_string(i) + "f", real(0, 0.1), low, low + real(0, 0.01)});
    }
    if (coin()) {
      const double flat = real(1e-3, 5e-3);
      made.wave = WaveFigures{flat + real(0, 2e-3), flat, whole(0, 7)};
    }
    if (coin()) {
      const double least = real(1e-3, 2e-2);
      made.springs = SpringFigures{least + real(0, 0.03), least, real(1e3, 1e6)};
    }
    if (coin()) {
      ring(made);
    }
    places(made);
    for (int i = whole(0, 2); i > 0; --i) {
      made.band_states.push_back({word() + std::to_string(i) + "s", solid()});
    }
    return made;
  }

private:
  void ring(Component& made) {
    RingFigures figures;
    figures.in_bore = coin();
    figures.free_m = real(0.02, 0.1);
    figures.squeezed_m = figures.free_m * (figures.in_bore ? real(0.9, 1) : real(1, 1.1));
    figures.thickness_m = real(1e-3, 4e-3);
    figures.width_m = real(2e-3, 6e-3);
    figures.gap_rad = real(0, 1);
    figures.bevelled = coin();
    figures.reversed_play_m = real(0, 1e-3);
    figures.free_height_m = figures.bevelled || coin() ? 0 : figures.thickness_m + real(0, 2e-3);
    made.ring = figures;
  }

  void places(Component& made) {
    for (int i = whole(0, 3); i > 0; --i) {
      Groove groove;
      groove.id = word() + std::to_string(i) + "g";
      groove.in_bore = coin();
      groove.low_m = real(0, 0.2);
      groove.high_m = groove.low_m + real(1e-3, 4e-3);
      groove.land_m = real(0.03, 0.1);
      groove.bottom_m = groove.land_m * (groove.in_bore ? 1.03 : 0.97);
      groove.loads_up = coin();
      made.grooves.push_back(groove);
    }
    for (int i = whole(0, 3); i > 0; --i) {
      Key key;
      key.id = word() + std::to_string(i) + "k";
      key.fits = coin() ? "CASE/" + word() : "";
      key.angle_rad = real(-4, 4);
      key.inner_m = real(0, 0.1);
      key.outer_m = key.inner_m + real(1e-3, 1e-2);
      key.low_m = real(-0.1, 0.1);
      key.high_m = key.low_m + real(1e-3, 1e-2);
      key.width_m = real(1e-3, 2e-2);
      made.keys.push_back(key);
    }
    for (int i = whole(0, 2); i > 0; --i) {
      made.marks.push_back({word(), real(0, 0.1), real(-4, 4), real(-0.1, 0.1)});
    }
  }

  std::mt19937_64 bits_;
};

Component friction_plate() {
  Component plate;
  plate.id = "F1";
  plate.name = "friction 1";
  plate.kind = ComponentKind::friction;
  plate.material = "steel";
  SectorRing teeth;
  teeth.inner_m = 0.0580;
  teeth.outer_m = 0.0600;
  teeth.high_m = 0.00198;
  teeth.feature = "tooth";
  teeth.sectors = repeated(parallel_sector(0, 0.003), 42);
  plate.solid.rings = {{0.06, 0.075, 0, 0.00198, {}, "", "friction lining"}, teeth};
  plate.figures = {{"thickness", 0.00198, 0, 0.00198}};
  return plate;
}

} // namespace

TEST_CASE("any component survives its extras, as a value and as text") {
  Maker maker(20240229);
  for (int i = 0; i < 400; ++i) {
    const Component made = maker.component();
    CAPTURE(i);
    const json extras = extras_of(made);
    const Outcome<Component> back = component_from_extras(extras);
    INFO((back ? "" : back.problem()));
    REQUIRE(back.ok());
    check_same(made, back.value());

    const std::string text = extras_text_of(made);
    const auto from_text = component_from_extras_text(text);
    REQUIRE(from_text.ok());
    REQUIRE(from_text.value().has_value());
    check_same(made, *from_text.value());
    // Written again, not one byte moves: no drift from saving twice.
    CHECK(extras_text_of(*from_text.value()) == text);
  }
}

TEST_CASE("evenly repeated teeth are written once") {
  const json extras = extras_of(friction_plate());
  const json& teeth = extras["solid"]["rings"][1]["sectors"];
  REQUIRE(teeth.is_object());
  CHECK(teeth["count"] == 42);
  CHECK(teeth["first_deg"] == 0.0);
  CHECK_FALSE(teeth.contains("span_deg"));
  CHECK(teeth["from_mm"] == -1.5);
  CHECK(teeth["to_mm"] == 1.5);
  CHECK(extras.dump().size() < 700);
  const Outcome<Component> back = component_from_extras(extras);
  REQUIRE(back.ok());
  CHECK(back.value().solid.rings[1].sectors.size() == 42);
}

TEST_CASE("teeth that are not quite even are listed one by one") {
  Component plate = friction_plate();
  plate.solid.rings[1].sectors[7].from.angle_rad += 1e-9;
  const json extras = extras_of(plate);
  REQUIRE(extras["solid"]["rings"][1]["sectors"].is_array());
  check_same(plate, component_from_extras(extras).value());

  plate = friction_plate();
  plate.solid.rings[1].sectors.pop_back(); // one tooth is gone
  CHECK(extras_of(plate)["solid"]["rings"][1]["sectors"].size() == 41);
}

TEST_CASE("figures read as a person would write them") {
  const json extras = extras_of(friction_plate());
  CHECK(extras["schema"] == 1);
  CHECK(extras["solid"]["rings"][0]["high_mm"].dump() == "1.98");
  CHECK(extras["figures"][0]["value_mm"].dump() == "1.98");
  Component keyed = friction_plate();
  keyed.keys.push_back({"wide lug", "CASE/slot", 30 * pi / 180, 0.06, 0.0635, 0, 0.002, 0.0159});
  CHECK(extras_of(keyed)["keys"][0]["angle_deg"].dump() == "30.0");
  CHECK(extras_of(keyed)["keys"][0]["width_mm"].dump() == "15.9");
}

TEST_CASE("sectors that touch may touch after rounding too") {
  Component ring = friction_plate();
  ring.solid.rings[1].sectors = {{{0.1, 0}, {1.7 / 3, 0}}, {{1.7 / 3, 0}, {0.1 + 2 * pi, 0}}};
  const Outcome<Component> back = component_from_extras(extras_of(ring));
  INFO((back ? "" : back.problem()));
  CHECK(back.ok());
}

TEST_CASE("a solid disc keeps its inner radius of nothing") {
  Component disc = friction_plate();
  disc.solid.rings = {{0, 0.03, 0, 0.004, {}, "", ""},
                      {0, 0.03, 0.004, 0.008, {radial_sector(1, 2)}, "half", ""}};
  const Outcome<Component> back = component_from_extras(extras_of(disc));
  INFO((back ? "" : back.problem()));
  REQUIRE(back.ok());
  check_same(disc, back.value());
}

TEST_CASE("extras that are somebody else's are no failure") {
  for (const char* text : {"", "{}", R"({"maker":"x"})", "[1,2]", "3", "null"}) {
    const auto read = component_from_extras_text(text);
    CAPTURE(text);
    REQUIRE(read.ok());
    CHECK_FALSE(read.value().has_value());
  }
  CHECK_FALSE(component_from_extras_text("{\"lugline\":").ok());
  CHECK_FALSE(component_from_extras_text(R"({"lugline":7})").ok());
}
