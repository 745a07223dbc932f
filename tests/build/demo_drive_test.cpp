// The demo's drive, from its own files and its simulated packs, against the tables that its data
// was made with. Invented practice data: the figures below are that unit's, typed as they are
// printed there, and describe no real transmission.
//
// The tables' clutch capacities are by uniform pressure. Lugline works out both and holds a verdict
// to uniform wear, which carries a little less.
#include "scene/build/drive_judge.h"
#include "scene/drive/piston.h"
#include "tests/build/demo.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;
using namespace lugline::test;

namespace {

const Drive& demo_drive() {
  return *demo().unit->drive;
}

const DriveFacts& demo_facts() {
  static const DriveFacts facts = [] {
    const CheckReport report = judge(*demo().workshop, demo().simulation);
    return drive_facts(*demo().unit, report.packs);
  }();
  return facts;
}

const DriveJudgement& demo_judgement() {
  static const DriveJudgement judgement = judge_ranges(*demo().unit, demo_facts(), {});
  return judgement;
}

const JudgedRange& judged_range(const std::string& id) {
  const auto& ranges = demo_judgement().ranges;
  const auto found = std::ranges::find(ranges, id, &JudgedRange::id);
  REQUIRE(found != ranges.end());
  return *found;
}

const JudgedElement& judged(const std::string& range, const std::string& element) {
  const JudgedRange& of = judged_range(range);
  REQUIRE(of.duties.size() == 1);
  const auto& elements = of.duties.front().elements;
  const auto found = std::ranges::find(elements, element, &JudgedElement::id);
  REQUIRE(found != elements.end());
  return *found;
}

/// Whether a figure prints as it stands in the table, with that many decimals.
bool prints_as(double value, double printed, int decimals) {
  return std::abs(value - printed) <= 0.5 * std::pow(10.0, -decimals) * (1 + 1e-9);
}

/// A line of a report's working or results, by its words.
std::optional<double> figure_in(const CalculationReport& report, const std::string& words) {
  for (const auto* lines : {&report.inputs, &report.working, &report.results}) {
    for (const ReportLine& line : *lines) {
      if (line.what.find(words) != std::string::npos) {
        return line.si;
      }
    }
  }
  return std::nullopt;
}

} // namespace

TEST_CASE("the demo's ratios are the table's") {
  struct Row {
    const char* range;
    double printed;
    int decimals;
  };
  for (const Row& row :
       {Row{"D first", 2.44, 2}, Row{"D second", 1.44, 2}, Row{"D third", 1.0, 1},
        Row{"Manual second", 1.44, 2}, Row{"Manual low", 2.44, 2}, Row{"Reverse", -2.2727, 4}}) {
    INFO(row.range);
    const JudgedRange& range = judged_range(row.range);
    CHECK(range.problems.empty());
    REQUIRE(range.pull.ratio.has_value());
    CHECK(prints_as(range.pull.ratio->value, row.printed, row.decimals));
  }
  CHECK(judged_range("N").pull.state == TrainState::neutral);
  CHECK(judged_range("N").problems.empty());
  CHECK(demo_judgement().sound);
}

TEST_CASE("the demo's members turn as its table says") {
  struct Row {
    const char* range;
    double main_shaft, sun, output, reaction_carrier;
  };
  for (const Row& row :
       {Row{"D first", 1.0, -0.9314, 0.4098, 0.0}, Row{"D second", 1.0, 0.0, 0.6944, 0.4823},
        Row{"D third", 1.0, 1.0, 1.0, 1.0}, Row{"Reverse", -1.0736, 1.0, -0.44, 0.0}}) {
    INFO(row.range);
    const TrainAnswer& answer = judged_range(row.range).pull;
    const auto turns = [&](const char* member, double printed) {
      INFO(member);
      REQUIRE(answer.member(member) != nullptr);
      REQUIRE(answer.member(member)->speed.has_value());
      CHECK(prints_as(answer.member(member)->speed->value, printed, 4));
    };
    turns("input", 1.0);
    turns("main shaft", row.main_shaft);
    turns("sun", row.sun);
    turns("output", row.output);
    turns("reaction carrier", row.reaction_carrier);
  }
}

TEST_CASE("the demo's directions are as its proof says") {
  // By the case on a member, as a share of the input's torque; positive is clockwise, and the
  // member then tends to turn the other way.
  const auto share = [](const char* range, const char* element) {
    const ElementWork* work = judged_range(range).pull.element(element);
    REQUIRE(work != nullptr);
    REQUIRE(work->torque.has_value());
    return work->torque->value;
  };
  CHECK(prints_as(share("D first", "LRC"), 1.44, 2));
  CHECK(judged("D first", "LRC").doing == ElementDoing::holds);
  CHECK(prints_as(share("D second", "OWC"), 0.44, 2));
  CHECK(judged("D second", "OWC").doing == ElementDoing::holds);
  CHECK(judged_range("D second").pull.element("LRC")->doing == ElementDoing::overruns);
  CHECK(judged_range("D third").pull.element("OWC")->doing == ElementDoing::overruns);
  CHECK(prints_as(share("Reverse", "LB"), -3.2727, 4));
}

TEST_CASE("the demo's packs give the strokes of its table") {
  // Clearance with the wave or cushion plate flat, found by dropping the parts.
  for (const auto& [id, stroke_mm] :
       {std::pair("CC", 1.9), std::pair("MC", 1.2), std::pair("UC", 1.9)}) {
    INFO(id);
    const PackFacts& pack = demo_facts().packs.at(id);
    CHECK(pack.stroke_m == Approx(stroke_mm * 1e-3).margin(1e-9));
    CHECK(pack.frictions == (std::string(id) == "UC" ? 5 : 4));
  }
  CHECK(demo_facts().notes.empty());
}

TEST_CASE("the demo's clutch capacities are the table's, to the printed digits") {
  struct Row {
    const char* element;
    const char* range;
    double area_mm2, spring_N, clamp_N;
    int surfaces;
    double mean_radius_mm, capacity_Nm, required_Nm, margin;
  };
  for (const Row& row : {
           Row{"UC", "D first", 10295.0, 854.4, 10470.1, 10, 65.328, 820.8, 360.0, 2.28},
           Row{"UC", "D third", 10295.0, 854.4, 7381.6, 10, 65.328, 578.7, 131.9, 4.39},
           Row{"CC", "D second", 5504.1, 568.8, 5485.7, 8, 80.204, 422.4, 158.4, 2.67},
           Row{"MC", "D third", 6898.9, 688.8, 4830.3, 8, 70.596, 327.4, 58.1, 5.64},
           Row{"MC", "Reverse", 6898.9, 688.8, 9659.6, 8, 70.596, 654.7, 360.0, 1.82},
       }) {
    INFO(row.element << " in " << row.range);
    const JudgedElement& element = judged(row.range, row.element);
    CHECK(prints_as(element.most_Nm, row.required_Nm, 1));
    const ClutchDesign design =
        clutch_design(*demo_drive().element(row.element), demo_facts().packs.at(row.element),
                      demo_drive().fluid_kg_per_m3);
    CHECK(design.surfaces == row.surfaces);
    const ClutchCapacity capacity = clutch_capacity(
        design, {"", *judged_range(row.range).duties.front().line_Pa, 0, element.most_Nm});
    REQUIRE(capacity.worked);
    CHECK(prints_as(capacity.area_m2 * 1e6, row.area_mm2, 1));
    CHECK(prints_as(capacity.back.apply_N, row.spring_N, 1));
    CHECK(prints_as(capacity.clamp_N, row.clamp_N, 1));
    CHECK(prints_as(capacity.pressure_radius_m * 1e3, row.mean_radius_mm, 3));
    CHECK(prints_as(capacity.pressure_Nm, row.capacity_Nm, 1));
    CHECK(prints_as(capacity.pressure_Nm / element.most_Nm, row.margin, 2));
    // What the range is judged by: uniform wear, a little less.
    REQUIRE(element.capacity_Nm.has_value());
    CHECK(*element.capacity_Nm == Approx(capacity.wear_Nm).epsilon(1e-12));
    CHECK(*element.capacity_Nm < capacity.pressure_Nm);
    CHECK(*element.capacity_Nm > 0.98 * capacity.pressure_Nm);
  }
}

TEST_CASE("the demo's band capacities are the table's, to the printed digits") {
  struct Row {
    const char* element;
    const char* range;
    double apply_N, capacity_Nm, required_Nm, margin;
  };
  for (const Row& row : {Row{"LB", "Reverse", 7259.1, 1776.2, 1178.2, 1.51},
                         Row{"LB", "Manual low", 1915.2, 468.6, 100.8, 4.65},
                         Row{"UB", "Manual second", 958.4, 73.6, 30.8, 2.39}}) {
    INFO(row.element << " in " << row.range);
    const JudgedElement& element = judged(row.range, row.element);
    CHECK(prints_as(element.most_Nm, row.required_Nm, 1));
    REQUIRE(element.capacity_Nm.has_value());
    CHECK(prints_as(*element.capacity_Nm, row.capacity_Nm, 1));
    REQUIRE(element.margin.has_value());
    CHECK(prints_as(*element.margin, row.margin, 2));
    // Energised: the element works against the drum counter-clockwise, so the drum pulls clockwise.
    REQUIRE(element.torque_Nm.has_value());
    CHECK(*element.torque_Nm < 0);
    const BandCapacity band =
        band_capacity(band_design(*demo_drive().element(row.element), 0),
                      {"", *judged_range(row.range).duties.front().line_Pa, -*element.torque_Nm});
    REQUIRE(band.worked);
    CHECK(band.tightens);
    CHECK(prints_as(band.band_N, row.apply_N, 1));
  }
}

TEST_CASE("the demo's one-way clutches carry what the table says") {
  struct Row {
    const char* element;
    const char* range;
    double required_Nm, rated_Nm, margin;
  };
  for (const Row& row :
       {Row{"LRC", "D first", 518.4, 800.0, 1.54}, Row{"OWC", "D second", 158.4, 320.0, 2.02}}) {
    INFO(row.element);
    const JudgedElement& element = judged(row.range, row.element);
    CHECK(prints_as(element.most_Nm, row.required_Nm, 1));
    REQUIRE(element.capacity_Nm.has_value());
    CHECK(*element.capacity_Nm == row.rated_Nm);
    REQUIRE(element.margin.has_value());
    CHECK(prints_as(*element.margin, row.margin, 2));
  }
}

TEST_CASE("the demo's pistons on bench air do what the table says") {
  struct Row {
    const char* element;
    double pressure_MPa, force_N, home_N, applied_N;
    bool moves, completes;
  };
  for (const Row& row : {
           Row{"CC", 0.25, 1376.0, 432.0, 568.8, true, true},
           Row{"CC", 0.08, 440.3, 432.0, 568.8, true, false},
           Row{"MC", 0.25, 1724.7, 588.0, 688.8, true, true},
           Row{"MC", 0.08, 551.9, 588.0, 688.8, false, false},
           Row{"UC", 0.25, 2573.7, 672.0, 854.4, true, true},
           Row{"UC", 0.08, 823.6, 672.0, 854.4, true, false},
       }) {
    INFO(row.element << " at " << row.pressure_MPa << " MPa");
    const DriveElement& element = *demo_drive().element(row.element);
    const double stroke_m = demo_facts().packs.at(row.element).stroke_m;
    const SpringBack back = spring_back(element.springs, element.spring_force_N, stroke_m);
    const double pressure_Pa = row.pressure_MPa * 1e6;
    CHECK(prints_as(pressure_Pa * area_m2(*element.piston), row.force_N, 1));
    CHECK(prints_as(back.home_N, row.home_N, 1));
    CHECK(prints_as(back.apply_N, row.applied_N, 1));
    const double travel_m = travel_at_m(*element.piston, back, stroke_m, pressure_Pa);
    CHECK((travel_m > 0) == row.moves);
    CHECK((travel_m >= stroke_m * (1 - 1e-9)) == row.completes);
  }
}

TEST_CASE("the middle clutch's springs are solid where the table says its piston stops") {
  const DriveElement& middle = *demo_drive().element("MC");
  CHECK(middle.most_stroke_m ==
        Approx(middle.springs->fitted_m - middle.springs->solid_m).margin(1e-12));
  CHECK(middle.most_stroke_m == Approx(4.5e-3).margin(1e-12));
}

TEST_CASE("an element's capacity comes with its working") {
  const JudgedElement& upper = judged("D first", "UC");
  CHECK(upper.report.verdict == ReportVerdict::good);
  CHECK(figure_in(upper.report, "area").has_value());
}

TEST_CASE("a demo range with an element gone or stuck does what its equations say") {
  const auto one = [](const DriveAsk& ask, const char* range) {
    const DriveJudgement judgement = judge_ranges(*demo().unit, demo_facts(), ask, range);
    REQUIRE(judgement.ranges.size() == 1);
    return judgement.ranges.front();
  };
  DriveAsk no_upper;
  no_upper.without = {"UC"};
  CHECK(one(no_upper, "D first").pull.state == TrainState::neutral);
  CHECK_FALSE(one(no_upper, "D first").problems.empty());
  CHECK(one(no_upper, "Reverse").problems.empty());
  DriveAsk no_roller;
  no_roller.without = {"LRC"};
  CHECK(one(no_roller, "D first").pull.state == TrainState::neutral);
  // The lower band holds the reaction carrier in its place.
  CHECK(one(no_roller, "Manual low").pull.state == TrainState::drives);
  DriveAsk reversed;
  reversed.reversed = {"OWC"};
  CHECK(one(reversed, "D first").pull.state == TrainState::drives);
  CHECK(one(reversed, "D second").pull.ratio->value ==
        Approx(2.44));                                              // no second: it stays in first
  CHECK(one(reversed, "D third").pull.state != TrainState::drives); // and binds in third
  DriveAsk stuck;
  stuck.stuck = {"MC"};
  // The one-way clutch of second lets go, and it is third; with the band on, nothing lets go.
  CHECK(one(stuck, "D second").pull.ratio->value == Approx(1.0));
  CHECK(one(stuck, "Manual second").pull.state != TrainState::drives);
}

TEST_CASE("another torque or pressure than the unit's is judged when it is asked for") {
  DriveAsk ask;
  ask.input_Nm = 900;
  const DriveJudgement judgement = judge_ranges(*demo().unit, demo_facts(), ask, "D first");
  CHECK_FALSE(judgement.sound);
  REQUIRE(judgement.ranges.size() == 1);
  REQUIRE(judgement.ranges[0].duties.size() == 1);
  CHECK(judgement.ranges[0].duties[0].line_Pa == 1.1e6); // the stall duty's
  DriveAsk low;
  low.line_Pa = 50e3; // 515 N against 854 N of spring
  const JudgedRange pressed = judge_ranges(*demo().unit, demo_facts(), low, "D first").ranges[0];
  REQUIRE_FALSE(pressed.problems.empty());
  CHECK(pressed.duties[0].elements[0].capacity_Nm == 0.0);
}

TEST_CASE("turning fluid presses on the pistons of turning drums only") {
  DriveAsk still;
  DriveAsk turning;
  turning.input_rad_per_s = 300;
  const auto capacity = [](const DriveAsk& ask, const char* range, const char* id) {
    const JudgedRange judged_one = judge_ranges(*demo().unit, demo_facts(), ask, range).ranges[0];
    const auto& elements = judged_one.duties.front().elements;
    return std::ranges::find(elements, id, &JudgedElement::id)->capacity_Nm.value();
  };
  CHECK(capacity(turning, "D first", "UC") > capacity(still, "D first", "UC"));
  CHECK(capacity(turning, "D second", "CC") == capacity(still, "D second", "CC"));
  CHECK(cylinder_of(*demo().unit, *demo_drive().element("MC")) == "sun");
  CHECK(cylinder_of(*demo().unit, *demo_drive().element("UC")) == "input");
  CHECK(cylinder_of(*demo().unit, *demo_drive().element("CC")) == case_member);
}

TEST_CASE("a range that does not drive, or not at its ratio, makes the unit unsound at its line") {
  const auto complaint = [](const std::string& was, const std::string& now) {
    const LoadReport report = demo_with("unit.toml", was, now);
    REQUIRE(report.unit != nullptr);
    const std::vector<Complaint> all = range_complaints(*report.unit);
    REQUIRE(all.size() == 1);
    CHECK(all[0].file == "unit.toml");
    CHECK(all[0].line > 600);
    return all[0].message;
  };
  CHECK(range_complaints(*demo().unit).empty());
  CHECK(complaint("on = [\"MC\", \"LB\"]", "on = [\"MC\"]").find("does not drive") !=
        std::string::npos);
  CHECK(complaint("ratio = -2.2727", "ratio = 2.2727").find("a ratio of -2.273") !=
        std::string::npos);
  CHECK(complaint("on = [\"UC\", \"MC\", \"CC\"]", "on = [\"UC\", \"MC\", \"LB\"]")
            .find("does not drive") != std::string::npos);
  CHECK(complaint("neutral = true", "ratio = 1.0").find("does not drive") != std::string::npos);
}

TEST_CASE("the demo's checks by air say what each piston does") {
  const auto air = [](const std::string& step) {
    return demo().simulation.outcomes[demo().step(step)].air;
  };
  REQUIRE(air("case air").size() == 1);
  const AirFinding closed = air("case air").front();
  CHECK(closed.stopped);
  CHECK(closed.reach.travel_m == Approx(1.9e-3).margin(1e-9));
  CHECK(prints_as(closed.reach.clamp_N, 1376.0 - 568.8, 1));
  // On the bench there is no pack yet: the springs stop it.
  const AirFinding bare = air("case air on bench").front();
  CHECK_FALSE(bare.stopped);
  CHECK(bare.reach.travel_m == Approx(4.5e-3).margin(1e-9));
  // The upper drum is upside down in the case by then, and its pack the one that was measured.
  const std::vector<AirFinding> all = air("air on all");
  REQUIRE(all.size() == 5);
  CHECK(all.front().element == "UC");
  CHECK(all.front().reach.travel_m == Approx(1.9e-3).margin(1e-9));
  for (const AirFinding& finding : all) {
    INFO(finding.name);
    CHECK(finding.stopped);
    CHECK(finding.reach.completes);
  }
}

TEST_CASE("air too weak for a piston fails the step that blows") {
  // The demo's seeded fault: 0.08 MPa on the middle clutch, 552 N against 588 N of spring.
  const LoadReport report =
      demo_with("unit.toml", "test = \"0.25 MPa\"\nlimit = \"0.28 MPa\"\nfloor = \"0.15 MPa\"",
                "test = \"0.08 MPa\"\nlimit = \"0.28 MPa\"\nfloor = \"0.05 MPa\"");
  REQUIRE(report.unit != nullptr);
  Workshop workshop(*report.unit, {});
  const Simulation simulation = simulate(workshop);
  const StepOutcome& middle = simulation.outcomes[report.unit->step_index("middle air")];
  REQUIRE(middle.problems.size() == 1);
  CHECK(middle.problems.front().find("does not move") != std::string::npos);
  // The case clutch moves, and does not get to its pack.
  const StepOutcome& closed = simulation.outcomes[report.unit->step_index("case air")];
  REQUIRE(closed.problems.size() == 1);
  REQUIRE(closed.air.size() == 1);
  CHECK(closed.air.front().reach.moves);
  CHECK_FALSE(closed.air.front().reach.completes);
}

namespace {

/// The height between springs' lower face and the retainer over them, at the last step that leaves
/// both upright.
std::optional<double> fitted_height(const Simulation& simulation, const std::string& springs,
                                    const std::string& retainer) {
  std::optional<double> fitted_m;
  for (const BuildState& state : simulation.after) {
    const PlaceState* place = state.place_with(springs);
    const Fitted* spring = place == nullptr ? nullptr : place->find(springs);
    const Fitted* over = place == nullptr ? nullptr : place->find(retainer);
    if (spring != nullptr && over != nullptr && over->height_m > spring->height_m) {
      fitted_m = over->height_m - spring->height_m;
    }
  }
  return fitted_m;
}

} // namespace

TEST_CASE("return springs are fitted at the height that both units state") {
  struct Row {
    const char* element;
    const char* springs;
    const char* retainer;
  };
  for (const Row& row : {Row{"CC", "CC-SPR", "CC-RET"}, Row{"MC", "MC-SPR", "MC-RET"},
                         Row{"UC", "UC-SPR", "UC-RET"}}) {
    INFO(row.element);
    const auto fitted_m = fitted_height(demo().simulation, row.springs, row.retainer);
    REQUIRE(fitted_m.has_value());
    CHECK(*fitted_m == Approx(demo_drive().element(row.element)->springs->fitted_m).margin(1e-6));
  }
  const LoadReport second = load_unit(LUGLINE_ROOT "/assets-demo/quernside-two");
  REQUIRE(second.unit != nullptr);
  Workshop workshop(*second.unit, {});
  const Simulation simulation = simulate(workshop);
  const auto fitted_m = fitted_height(simulation, "QD-SPR", "QD-RET");
  REQUIRE(fitted_m.has_value());
  CHECK(*fitted_m == Approx(second.unit->drive->element("QC")->springs->fitted_m).margin(1e-6));
}

TEST_CASE("the second unit's two ranges are those of a set of double pinions") {
  const LoadReport second = load_unit(LUGLINE_ROOT "/assets-demo/quernside-two");
  REQUIRE(second.unit != nullptr);
  Workshop workshop(*second.unit, {});
  const CheckReport report = judge(workshop, simulate(workshop));
  const DriveJudgement judgement =
      judge_ranges(*second.unit, drive_facts(*second.unit, report.packs), {});
  CHECK(judgement.sound);
  REQUIRE(judgement.ranges.size() == 2);
  // Sun held, carrier driven: ring/(ring - sun) = 84/48.
  CHECK(judgement.ranges[0].pull.ratio->fraction == "7/4");
  CHECK(judgement.ranges[1].pull.ratio->value == 1);
  // Of the input's torque, ratio - 1 is the case's.
  CHECK(judgement.ranges[0].pull.element("QO")->torque->fraction == "3/4");
}
