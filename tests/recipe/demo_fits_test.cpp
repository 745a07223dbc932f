// The demo's first part goes together: who rests on whom and at what height,
// clearances, keys, lash. Heights in the case's frame, in millimetres, are the
// demo's own arithmetic.

#include "tests/recipe/contact.h"
#include "tests/recipe/demo.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>
#include <numbers>

namespace lugline::test {

namespace {

constexpr double mm = 1e-3;
constexpr double deg = std::numbers::pi / 180;

/// Rest height in mm of one demo part on another that stands at a height.
double rest_mm(const Solid& moving, double turn_deg, const std::string& below, double below_mm,
               double below_turn_deg = 0) {
  const auto rest = rest_height(moving, turn_deg * deg,
                                {&demo_solid(below), below_mm * mm, below_turn_deg * deg});
  REQUIRE(rest);
  return *rest / mm;
}

double rest_mm(const std::string& id, double turn_deg, const std::string& below, double below_mm,
               double below_turn_deg = 0) {
  return rest_mm(demo_solid(id), turn_deg, below, below_mm, below_turn_deg);
}

Approx near(double mm_value) {
  return Approx(mm_value).margin(1e-6);
}

const Groove& groove(const std::string& id, const std::string& name) {
  const Groove* found = demo_part(id).component.groove(name);
  REQUIRE(found != nullptr);
  return *found;
}

double thickness_mm(const std::string& id) {
  const Figure* figure = demo_part(id).component.figure("thickness");
  REQUIRE(figure != nullptr);
  return figure->value_m / mm;
}

/// Half the play of a parallel lug in a parallel slot, as an angle each way, at a radius.
double lug_play_deg(double slot_mm, double lug_mm, double r_mm) {
  return (std::asin(slot_mm / 2 / r_mm) - std::asin(lug_mm / 2 / r_mm)) / deg;
}

} // namespace

TEST_CASE("the rear gear train, each part on what it rests on") {
  CHECK(rest_mm("RT-WR", 0, "CASE-01", 0) == near(0));
  CHECK(rest_mm("RT-WR", 30, "CASE-01", 0) == near(1.2)); // tabs beside the notches
  CHECK(rest_mm("RT-OUT", 0, "RT-WR", 0) == near(2.4));
  CHECK(rest_mm("RT-B1", 0, "RT-OUT", 2.4) == near(12.4));
  CHECK(rest_mm("RT-R1", 0, "RT-B1", 12.4) == near(15.6));
  CHECK(rest_mm("RT-MSR", 0, "RT-R1", 15.6) == near(23.6));
  CHECK(rest_mm("RT-T1", 0, "RT-R1", 15.6) == near(23.6));
  CHECK(rest_mm("RT-T4", 0, "RT-R1", 15.6) == near(23.6));
  CHECK(rest_mm("RT-SUN", 0, "RT-T4", 23.6) == near(25.2));
  CHECK(rest_mm("RT-C1", 0, "RT-T1", 23.6) == near(25.2));
  CHECK(rest_mm("RT-C1", 22.5, "RT-T1", 23.6) == near(26.4)); // on the tabs
  CHECK(rest_mm("RT-T2", 0, "RT-C1", 25.2) == near(59.2));
  CHECK(rest_mm("RT-C2", 0, "RT-T2", 59.2) == near(60.8));
  CHECK(rest_mm("RT-T3", 0, "RT-C2", 60.8) == near(96.8));
  CHECK(rest_mm("RT-T5", 0, "RT-SUN", 25.2) == near(96.6));
  CHECK(rest_mm("RT-LRC", 0, "RT-C2", 60.8) == near(99.5)); // on the cam's lip
  CHECK(25.2 + demo_solid("RT-SUN").high_m() / mm == near(196));
  CHECK(5.0 + demo_solid("RT-MS").high_m() / mm == near(284));
  // The cam's face below the case's: 318.30 - (60.80 + 58.00).
  CHECK(318.3 - (60.8 + demo_solid("RT-C2").high_m() / mm) == near(199.5));
}

TEST_CASE("the main shaft hangs in its ring, 1.00 off the pilot's floor") {
  const Groove& g = groove("RT-MS", "shaft ring");
  // The ring lies on the ring gear, and the groove's upper face on the ring.
  const double shaft_mm = 23.6 + thickness_mm("RT-MSR") - g.high_m / mm;
  CHECK(shaft_mm == near(5.0));
  // The floor is at 2.40 + 1.60.
  CHECK(rest_mm("RT-MS", 0, "RT-OUT", 2.4) == near(4.0));
}

TEST_CASE("carriers in mesh, and out of mesh with the sun or with a ring") {
  // 90.20 - 66.40: the rear faces of the pinions on the sun gear's ends.
  CHECK(rest_mm("RT-C2", 180.0 / 33, "RT-SUN", 25.2) - 60.8 == near(23.8));
  // 86.80 - 66.40 and 51.20 - 30.80: on the teeth of a ring.
  CHECK(rest_mm("RT-C2", 180.0 / 75, "RT-C1", 25.2) - 60.8 == near(20.4));
  CHECK(rest_mm("RT-C1", 180.0 / 75, "RT-R1", 15.6) - 25.2 == near(20.4));
  CHECK(rest_mm("RT-C1", 180.0 / 33, "RT-SUN", 25.2) - 25.2 == near(59.4));
  // In mesh at every pitch.
  for (const int k : {0, 1, 20}) {
    CHECK(rest_mm("RT-C2", 360.0 * k / 75, "RT-C1", 25.2) < 60.8);
    CHECK(rest_mm("RT-C1", 360.0 * k / 75, "RT-R1", 15.6) < 25.2);
  }
}

TEST_CASE("with a washer left out another path takes the load") {
  // T1: the front plate at 52.20 over the rear ring's rim at 51.20.
  CHECK(rest_mm("RT-C1", 0, "RT-R1", 15.6) - 25.2 == near(-1.0));
  // T2: the front plate at 87.80 over the front ring's end at 86.80.
  CHECK(rest_mm("RT-C2", 0, "RT-C1", 25.2) - 60.8 == near(-1.0));
  // B1: the ring gear on the flange.
  CHECK(rest_mm("RT-R1", 0, "RT-OUT", 2.4) - 15.6 == near(-3.2));
}

TEST_CASE("the centre support rests on the case's shoulder, or 4.00 proud on its pad") {
  CHECK(rest_mm("CS-01", 0, "CASE-01", 0) == near(120));
  for (const double turn_deg : {-3.0, 1.0, 10.0, 90.0, 180.0}) {
    CHECK(rest_mm("CS-01", turn_deg, "CASE-01", 0) == near(124));
  }
  CHECK(120 + 18 == near(138)); // front face: 180.30 below the case's
  CHECK(demo_solid("CASE-01").high_m() / mm - 138 == near(180.3));
  CHECK(120 + demo_solid("CS-01").low_m() / mm == near(98.7));
  CHECK(120 + demo_solid("CS-01").high_m() / mm == near(178));
}

TEST_CASE("the support's snap ring") {
  const Groove& g = groove("CASE-01", "support ring");
  CHECK(g.low_m / mm == near(138));
  CHECK(g.high_m / mm == near(140.6));
  CHECK(rest_mm("CS-RING", 0, "CS-01", 120) == near(138));
  CHECK(138 + thickness_mm("CS-RING") == near(140.2));
  const RingFigures& ring = *demo_part("CS-RING").component.ring;
  CHECK(ring.bevelled);
  CHECK(ring.reversed_play_m / mm == near(0.35));
}

TEST_CASE("every snap ring passes its land and stands in its groove") {
  const std::map<std::string, std::pair<std::string, std::string>> hosts{
      {"CS-RING", {"CASE-01", "support ring"}},  {"CC-RING", {"CASE-01", "clutch ring"}},
      {"CC-RETR", {"CS-01", "retainer ring"}},   {"MC-RING", {"MC-DRUM", "clutch ring"}},
      {"MC-RETR", {"MC-DRUM", "retainer ring"}}, {"OW-RETR", {"MC-DRUM", "one-way ring"}},
      {"UC-RETR", {"UC-DRUM", "retainer ring"}}, {"UC-RING1", {"UC-DRUM", "ring 1"}},
      {"UC-RING2", {"UC-DRUM", "ring 2"}},       {"RT-MSR", {"RT-MS", "shaft ring"}},
      {"RT-C1R", {"RT-OUT", "carrier ring"}}};
  for (const auto& [id, host] : hosts) {
    CAPTURE(id);
    const RingFigures& ring = *demo_part(id).component.ring;
    const Groove& g = groove(host.first, host.second);
    CHECK(ring.in_bore == g.in_bore);
    CHECK(ring.thickness_m < g.high_m - g.low_m);
    const Solid& solid = demo_solid(id);
    if (g.in_bore) {
      CHECK(ring.squeezed_m < g.land_m);
      CHECK(ring.free_m > g.land_m);
      CHECK(solid.outer_m() < g.bottom_m);
      CHECK(solid.outer_m() > g.land_m);
    } else {
      const double bore_m = solid.rings.front().inner_m;
      CHECK(ring.squeezed_m > g.land_m);
      CHECK(ring.free_m < g.land_m);
      CHECK(bore_m > g.bottom_m);
      CHECK(bore_m < g.land_m);
    }
  }
}

TEST_CASE("the case clutch: piston, springs, retainer") {
  CHECK(rest_mm("CC-PIST", 0, "CS-01", 120) == near(124));
  CHECK(124 + demo_solid("CC-PIST").high_m() / mm == near(141));
  CHECK(rest_mm("CC-SPR", 0, "CC-PIST", 124) == near(129));
  const Groove& g = groove("CS-01", "retainer ring");
  CHECK(g.loads_up);
  CHECK(120 + g.high_m / mm == near(141.4));
  const double ring_mm = 141.4 - thickness_mm("CC-RETR");
  CHECK(ring_mm == near(140.2));
  CHECK(ring_mm - thickness_mm("CC-RET") == near(139)); // 10.0 of spring
  CHECK(rest_mm("CC-RETR", 0, "CC-RET", 139) == near(140.2));
}

TEST_CASE("the case clutch: the pack's heights and its clearance") {
  double top_mm = 141;
  std::string below = "CC-PIST";
  double below_mm = 124;
  const std::vector<std::pair<std::string, double>> pack{
      {"CC-WAVE", 141.0}, {"CC-S", 143.8}, {"CC-F", 145.3}, {"CC-S", 146.9}, {"CC-F", 148.4},
      {"CC-S", 150.0},    {"CC-F", 151.5}, {"CC-S", 153.1}, {"CC-F", 154.6}, {"CC-BP", 156.2}};
  for (const auto& [id, at_mm] : pack) {
    CAPTURE(id, at_mm);
    CHECK(rest_mm(id, 0, below, below_mm) == near(at_mm));
    CHECK(at_mm == near(top_mm));
    top_mm = at_mm + demo_solid(id).high_m() / mm;
    below = id;
    below_mm = at_mm;
  }
  const Groove& g = groove("CASE-01", "clutch ring");
  const double load_mm = g.high_m / mm - thickness_mm("CC-RING");
  CHECK(load_mm == near(161.5));
  CHECK(load_mm - rest_mm("CC-RING", 0, "CC-BP", 156.2) == near(0.9));
  const Solid over = turned_over(demo_solid("CC-BP"));
  CHECK(rest_mm(over, 0, "CC-F", 154.6) == near(156.2));
  const auto ring_on_over = rest_height(demo_solid("CC-RING"), 0, {&over, 156.2 * mm, 0});
  REQUIRE(ring_on_over);
  CHECK(load_mm - *ring_on_over / mm == near(0.3));
}

TEST_CASE("the case clutch's plates go into the slots, the backing plate one way only") {
  const auto stopped = [](const std::string& id, double turn_deg) {
    const auto rest = rest_height(demo_solid(id), turn_deg * deg, {&demo_solid("CASE-01"), 0, 0});
    return rest && *rest > 299 * mm;
  };
  const double half_deg = lug_play_deg(8.0, 7.4, 97.8);
  CHECK(2 * half_deg == Approx(0.352).margin(0.0005));
  CHECK(lug_play_deg(16.0, 15.4, 97.8) > half_deg);
  for (int k = 0; k < 10; ++k) {
    CAPTURE(k);
    CHECK_FALSE(stopped("CC-S", 36 * k));
    CHECK_FALSE(stopped("CC-WAVE", 36 * k));
    CHECK(stopped("CC-BP", 36 * k) == (k != 0));
    CHECK(stopped("CC-S", 36 * k + half_deg * 1.01));
  }
  CHECK_FALSE(stopped("CC-BP", half_deg * 0.999));
  CHECK_FALSE(stopped("CC-BP", -half_deg * 0.999));
  CHECK(stopped("CC-BP", half_deg * 1.001));
  CHECK(stopped("CC-BP", -half_deg * 1.001));
  CHECK(stopped("CC-S", 18));
  int free_steps = 0;
  for (int k = 0; k < 3600; ++k) {
    free_steps += stopped("CC-BP", k * 0.1) ? 0 : 1;
  }
  CHECK(free_steps == 3); // -0.1, 0 and 0.1 degrees
}

TEST_CASE("T6 and the middle drum on the centre support") {
  CHECK(rest_mm("CS-T6", 0, "CS-01", 120) == near(138));
  CHECK(rest_mm("CS-T6", 45, "CS-01", 120) == near(139.2)); // tabs on the face
  CHECK(rest_mm("MC-DRUM", 0, "CS-T6", 138) == near(139.6));
  CHECK(rest_mm("MC-DRUM", 0, "CS-01", 120) == near(139.1)); // T6 left out: 0.50 low
  // Doubled, the second washer lies flat on the first, and the drum 1.60 proud.
  for (const double turn_deg : {0.0, 20.0, 45.0}) {
    CHECK(rest_mm("CS-T6", turn_deg, "CS-T6", 138) == near(139.6));
    CHECK(rest_mm("CS-T6", turn_deg, "CS-01", 120) <= 139.2 + 1e-6);
  }
  // Rim and tower below the case's front face.
  CHECK(318.3 - (139.6 + demo_solid("MC-DRUM").high_m() / mm) == near(104.3));
  const Figure* tower = demo_part("MC-DRUM").component.figure("hub to tower");
  REQUIRE(tower != nullptr);
  CHECK(318.3 - (139.6 + tower->value_m / mm) == near(120.3));
}

TEST_CASE("the drum's spline on the sun shaft: entered, or 17.50 proud") {
  CHECK(rest_mm("MC-DRUM", 7.5, "RT-SUN", 25.2) - 139.6 == near(17.5));
  // The shaft's teeth stand half a pitch from the drum's. At the pitch circle of 36 mm they are
  // thinned by 0.10 mm each, 0.64 degrees, and their chords give no more than 0.02 mm
  // a flank besides.
  const auto entered = [](double turn_deg) {
    const auto rest =
        rest_height(demo_solid("MC-DRUM"), turn_deg * deg, {&demo_solid("RT-SUN"), 25.2 * mm, 0});
    return !rest || *rest < 139.6 * mm;
  };
  const double lash_deg = (0.2 / 2) / 18 / deg;
  const double chords_deg = 0.04 / 18 / deg;
  for (const double side : {-1.0, 1.0}) {
    CHECK(entered(side * (lash_deg - 0.01)));
    CHECK_FALSE(entered(side * (lash_deg + chords_deg + 0.01)));
  }
  CHECK(entered(0));
  CHECK(entered(15));
  // The shaft clears the support's bore.
  CHECK_FALSE(
      rest_height(demo_solid("CS-01"), 0, {&demo_solid("RT-SUN"), 25.2 * mm, 0}).value_or(0) >
      120 * mm);
}

TEST_CASE("the one-way clutch in the back of the drum") {
  // From the drum's race seat downwards, as it stands in the unit.
  const double seat_mm = 139.6 + 20.4;
  CHECK(seat_mm - thickness_mm("OW-IR") == near(145));
  CHECK(seat_mm - thickness_mm("OW-OR") == near(145.2));
  const Groove& g = groove("MC-DRUM", "one-way ring");
  CHECK_FALSE(g.loads_up);
  CHECK(139.6 + g.low_m / mm == near(141.2));
  CHECK(rest_mm("OW-RET", 0, "OW-RETR", 141.2) == near(142.6));
  CHECK(rest_mm("OW-IR", 0, "OW-RET", 142.6) == near(145));
  CHECK(rest_mm("OW-OR", 0, "OW-RET", 142.6) == near(145.2));
  CHECK(demo_solid("OW-ELEM").high_m() / mm == near(12.5));
}

TEST_CASE("the outer race stands proud on each friction that it has not entered") {
  const double friction_mm[] = {145.3, 148.4, 151.5, 154.6};
  const double proud_mm[] = {1.7, 4.8, 7.9, 11.0};
  for (std::size_t k = 0; k < 4; ++k) {
    CHECK(rest_mm("OW-OR", 0, "CC-F", friction_mm[k]) - 145.2 == near(proud_mm[k]));
    // Half a pitch on it passes.
    const auto past = rest_height(demo_solid("OW-OR"), 180.0 / 42 * deg,
                                  {&demo_solid("CC-F"), friction_mm[k] * mm, 0});
    CHECK_FALSE(past);
  }
  const auto passes = [](double off_deg) {
    return !rest_height(demo_solid("OW-OR"), (180.0 / 42 + off_deg) * deg,
                        {&demo_solid("CC-F"), 0, 0});
  };
  CHECK(passes(0.29));
  CHECK(passes(-0.29));
  CHECK_FALSE(passes(0.31));
  CHECK_FALSE(passes(-0.31));
}

TEST_CASE("the middle clutch: piston, springs, retainer, pack and clearance") {
  CHECK(rest_mm("MC-PIST", 0, "MC-DRUM", 139.6) == near(171));
  CHECK(171 + demo_solid("MC-PIST").high_m() / mm == near(185));
  CHECK(rest_mm("MC-SPR", 0, "MC-PIST", 171) == near(178));
  const Groove& shaft = groove("MC-DRUM", "retainer ring");
  CHECK(139.6 + shaft.high_m / mm - thickness_mm("MC-RETR") == near(195));
  CHECK(195 - thickness_mm("MC-RET") == near(193)); // 15.0 of spring
  double top_mm = 185;
  const std::vector<std::pair<std::string, double>> pack{
      {"MC-AP", 185.0}, {"MC-F", 188.0}, {"MC-S", 190.2}, {"MC-F", 192.2}, {"MC-S", 194.4},
      {"MC-F", 196.4},  {"MC-S", 198.6}, {"MC-F", 200.6}, {"MC-BP", 202.8}};
  std::string below = "MC-PIST";
  double below_mm = 171;
  for (const auto& [id, at_mm] : pack) {
    CAPTURE(id, at_mm);
    CHECK(rest_mm(id, 0, below, below_mm) == near(at_mm));
    CHECK(at_mm == near(top_mm));
    top_mm = at_mm + demo_solid(id).high_m() / mm;
    below = id;
    below_mm = at_mm;
  }
  const Groove& g = groove("MC-DRUM", "clutch ring");
  const double load_mm = 139.6 + g.high_m / mm - thickness_mm("MC-RING");
  CHECK(load_mm == near(209));
  CHECK(load_mm - rest_mm("MC-RING", 0, "MC-BP", 202.8) == near(1.2));
  const Solid over = turned_over(demo_solid("MC-BP"));
  const auto ring_on_over = rest_height(demo_solid("MC-RING"), 0, {&over, 202.8 * mm, 0});
  REQUIRE(ring_on_over);
  CHECK(load_mm - *ring_on_over / mm == near(0.4));
}

TEST_CASE("the middle clutch's plates in the drum's slots") {
  const auto stopped = [](const std::string& id, double turn_deg) {
    const auto rest = rest_height(demo_solid(id), turn_deg * deg, {&demo_solid("MC-DRUM"), 0, 0});
    return rest && *rest > 60 * mm;
  };
  for (int k = 0; k < 12; ++k) {
    CAPTURE(k);
    CHECK_FALSE(stopped("MC-AP", 30 * k));
    CHECK_FALSE(stopped("MC-S", 30 * k));
    CHECK(stopped("MC-BP", 30 * k) == (k != 0));
    CHECK(stopped("MC-S", 30 * k + 0.3));
  }
}

TEST_CASE("the upper band hangs on its pin, clear of drum and case") {
  const Stood pin{&demo_solid("BAND-ANC"), 0, 0};
  const Stood drum{&demo_solid("MC-DRUM"), 139.6 * mm, 0};
  const Stood case_{&demo_solid("CASE-01"), 0, 0};
  CHECK(depth_inside(pin, case_) <= 0);
  for (const BandState& state : demo_part("UB-BAND").component.band_states) {
    CAPTURE(state.id);
    const Stood band{&state.solid, 174 * mm, 0};
    CHECK(depth_inside(band, pin) <= 0);
    CHECK(depth_inside(band, case_) <= 0);
    CHECK((depth_inside(band, drum) > 0) == (state.id == "leaning"));
  }
  // Off its pin's angle the loop does not go on.
  const Stood turned{&demo_solid("UB-BAND"), 174 * mm, 3 * deg};
  CHECK(depth_inside(turned, pin) > 0);
  CHECK(174 + demo_solid("UB-BAND").high_m() / mm == near(206));
}

TEST_CASE("nothing runs into anything in the finished first part") {
  struct At {
    const char* id;
    double height_mm;
    double turn_deg;
  };
  // Teeth half a pitch from those they enter.
  const double friction_deg = 180.0 / 42;
  const std::vector<At> unit{{"CASE-01", 0, 0},
                             {"RT-WR", 0, 0},
                             {"RT-OUT", 2.4, 0},
                             {"RT-B1", 12.4, 0},
                             {"RT-R1", 15.6, 0},
                             {"RT-MS", 5.0, 180.0 / 27},
                             {"RT-MSR", 23.6, 0},
                             {"RT-T1", 23.6, 0},
                             {"RT-T4", 23.6, 0},
                             {"RT-SUN", 25.2, 0},
                             {"RT-C1", 25.2, 0},
                             {"RT-C1R", 59.3, 0},
                             {"RT-T2", 59.2, 0},
                             {"RT-C2", 60.8, 0},
                             {"RT-T3", 96.8, 0},
                             {"RT-T5", 96.6, 0},
                             {"RT-LRC", 99.5, 0},
                             {"CS-01", 120, 0},
                             {"CS-RING", 138, 0},
                             {"CC-PIST", 124, 0},
                             {"CC-RET", 139, 0},
                             {"CC-RETR", 140.2, 0},
                             {"CC-WAVE", 141, 0},
                             {"CC-S", 143.8, 0},
                             {"CC-F", 145.3, friction_deg},
                             {"CC-S", 146.9, 0},
                             {"CC-F", 148.4, friction_deg},
                             {"CC-S", 150, 0},
                             {"CC-F", 151.5, friction_deg},
                             {"CC-S", 153.1, 0},
                             {"CC-F", 154.6, friction_deg},
                             {"CC-BP", 156.2, 0},
                             {"CC-RING", 161.5, 0},
                             {"CS-T6", 138, 0},
                             {"BAND-ANC", 0, 0},
                             {"UB-BAND", 174, 0},
                             {"MC-DRUM", 139.6, 0},
                             {"MC-PIST", 171, 0},
                             {"MC-RET", 193, 0},
                             {"MC-RETR", 195, 0},
                             {"MC-AP", 185, 0},
                             {"MC-F", 188, 0},
                             {"MC-S", 190.2, 0},
                             {"MC-F", 192.2, 0},
                             {"MC-S", 194.4, 0},
                             {"MC-F", 196.4, 0},
                             {"MC-S", 198.6, 0},
                             {"MC-F", 200.6, 0},
                             {"MC-BP", 202.8, 0},
                             {"MC-RING", 209, 0},
                             {"OW-IR", 145, 0},
                             {"OW-ELEM", 146, 0},
                             {"OW-OR", 145.2, 0},
                             {"OW-RET", 142.6, 0},
                             {"OW-RETR", 141.2, 0}};
  for (std::size_t i = 0; i < unit.size(); ++i) {
    for (std::size_t j = i + 1; j < unit.size(); ++j) {
      const Stood a{&demo_solid(unit[i].id), unit[i].height_mm * mm, unit[i].turn_deg * deg};
      const Stood b{&demo_solid(unit[j].id), unit[j].height_mm * mm, unit[j].turn_deg * deg};
      const double inside_mm = depth_inside(a, b) / mm;
      if (inside_mm > 1e-6) {
        CAPTURE(unit[i].id, unit[j].id, inside_mm);
        FAIL_CHECK("two parts take up the same room");
      }
    }
  }
}

TEST_CASE("running fits leave 0.1 mm on the diameter at least") {
  // Facing walls of two parts at the same height: the outer one's bore, the inner one's outside.
  const auto inner_m = [](const std::string& id, const std::string& feature) {
    double least = 1;
    for (const SectorRing& ring : demo_solid(id).rings) {
      least = ring.feature == feature ? std::min(least, ring.inner_m) : least;
    }
    INFO(id << " has " << feature);
    CHECK(least < 1);
    return least;
  };
  const auto outer_m = [](const std::string& id, const std::string& feature) {
    double most_m = 0;
    for (const SectorRing& ring : demo_solid(id).rings) {
      most_m = ring.feature == feature ? std::max(most_m, ring.outer_m) : most_m;
    }
    INFO(id << " has " << feature);
    CHECK(most_m > 0);
    return most_m;
  };
  const double least_m = 0.05 * mm - 1e-9; // on the radius
  CHECK(inner_m("CASE-01", "support pocket") - outer_m("CS-01", "flange") >= least_m);
  CHECK(inner_m("CC-RET", "plate") - outer_m("CS-01", "retainer tower") >= least_m);
  CHECK(inner_m("CC-PIST", "web") - outer_m("CS-01", "front face") >= least_m);
  CHECK(inner_m("CS-01", "rim") - outer_m("CC-PIST", "web") >= least_m);
  CHECK(inner_m("MC-DRUM", "piston bore") - outer_m("MC-PIST", "web") >= least_m);
  CHECK(inner_m("MC-PIST", "web") - outer_m("MC-DRUM", "tower") >= least_m);
  CHECK(inner_m("OW-IR", "race") - outer_m("MC-DRUM", "hub") >= least_m);
  CHECK(inner_m("OW-RET", "plate") - outer_m("MC-DRUM", "hub") >= least_m);
  CHECK(inner_m("OW-ELEM", "sprags") - outer_m("OW-IR", "race") >= least_m);
  CHECK(inner_m("OW-OR", "race") - outer_m("OW-ELEM", "sprags") >= least_m);
  CHECK(inner_m("MC-RET", "plate") - outer_m("MC-DRUM", "tower") >= least_m);
  CHECK(inner_m("MC-DRUM", "tower") - outer_m("RT-SUN", "spline") >= least_m);
  CHECK(inner_m("MC-DRUM", "spline") - outer_m("RT-SUN", "spline root") >= least_m);
  CHECK(inner_m("CS-01", "front face") - outer_m("RT-SUN", "shaft") >= least_m);
  CHECK(inner_m("MC-DRUM", "hub") - outer_m("CS-01", "front hub") >= least_m);
  CHECK(inner_m("CC-F", "tooth") - outer_m("OW-OR", "race") >= least_m);
  CHECK(inner_m("CC-F", "core") - outer_m("OW-OR", "tooth") >= least_m);
  CHECK(inner_m("UC-DRUM", "piston bore") - outer_m("UC-PIST", "web") >= least_m);
  CHECK(inner_m("UC-PIST", "web") - outer_m("UC-DRUM", "tower") >= least_m);
  CHECK(inner_m("UC-RET", "plate") - outer_m("UC-DRUM", "tower") >= least_m);
  CHECK(inner_m("UC-DRUM", "slot land") - outer_m("UC-S", "plate") >= least_m);
  CHECK(inner_m("UC-DRUM", "slot land") - outer_m("UC-MHUB", "flange") >= least_m);
  CHECK(inner_m("UC-DRUM", "rim") - outer_m("UC-S", "lug") >= least_m);
  CHECK(inner_m("UC-DRUM", "rim") - outer_m("UC-MHUB", "lug") >= least_m);
  CHECK(inner_m("UC-DRUM", "tower") - outer_m("UC-HUB", "boss") >= least_m);
  CHECK(inner_m("UC-F", "tooth") - outer_m("UC-HUB", "cup") >= least_m);
  CHECK(inner_m("UC-F", "core") - outer_m("UC-HUB", "tooth") >= least_m);
  CHECK(inner_m("MC-F", "tooth") - outer_m("UC-MHUB", "skirt") >= least_m);
  CHECK(inner_m("MC-F", "core") - outer_m("UC-MHUB", "tooth") >= least_m);
  // The rear gear train.
  CHECK(inner_m("CASE-01", "rear wall") - outer_m("RT-OUT", "output shaft") >= least_m);
  CHECK(inner_m("RT-OUT", "flange") - outer_m("RT-MS", "rear pilot") >= least_m);
  CHECK(inner_m("RT-SUN", "sun gear") - outer_m("RT-MS", "shaft") >= least_m);
  CHECK(inner_m("RT-R1", "web") - outer_m("RT-MS", "rear spline") >= least_m);
  CHECK(inner_m("RT-R1", "spline") - outer_m("RT-MS", "rear spline root") >= least_m);
  CHECK(inner_m("RT-OUT", "cup tooth") - outer_m("RT-C1", "front ring gear") >= least_m);
  CHECK(inner_m("RT-OUT", "cup tooth") - outer_m("RT-C1", "front plate") >= least_m);
  CHECK(inner_m("RT-OUT", "cup rim") - outer_m("RT-C1", "lug") >= least_m);
  CHECK(inner_m("RT-C2", "band drum") - outer_m("RT-OUT", "cup rim") >= least_m);
  CHECK(inner_m("RT-C1", "front plate") - outer_m("RT-SUN", "gear tooth") >= least_m);
  CHECK(inner_m("RT-T5", "washer") - outer_m("RT-SUN", "shaft") >= least_m);
  CHECK(inner_m("RT-LRC", "rollers") - outer_m("CS-01", "rear hub") >= least_m);
  CHECK(inner_m("RT-C2", "cam") - outer_m("RT-LRC", "rollers") >= least_m);
  CHECK(inner_m("TOOL-LIFT", "handle") - outer_m("RT-MS", "shaft") >= least_m);
  // The collar goes through the pinions, and the squeezed ring past the front ring gear.
  CHECK(inner_m("RT-C1", "pinion") - outer_m("RT-SUN", "collar") >= least_m);
  const RingFigures& ring = *demo_part("RT-C1R").component.ring;
  CHECK(ring.squeezed_m - ring.width_m - outer_m("RT-C1", "front ring gear") >= least_m);
}

TEST_CASE("the lifting spider's fingers reach into the drum's groove") {
  const Solid& spider = demo_solid("TOOL-LIFT");
  const Groove& g = groove("MC-DRUM", "clutch ring");
  CHECK(spider.outer_m() > g.land_m);
  CHECK(spider.outer_m() < g.bottom_m);
  for (const SectorRing& ring : spider.rings) {
    if (ring.feature == "finger") {
      CHECK(ring.high_m - ring.low_m < g.high_m - g.low_m);
      CHECK(ring.sectors.size() == 3);
    } else {
      CHECK(ring.outer_m < g.land_m);
    }
  }
  CHECK(spider.low_m() == 0);
  CHECK(spider.high_m() / mm == near(90));
  CHECK(depth_inside({&spider, g.low_m, 0}, {&demo_solid("MC-DRUM"), 0, 0}) <= 1e-9);
}

} // namespace lugline::test
