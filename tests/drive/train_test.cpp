#include "scene/drive/train.h"

#include "tests/drive/demo_train.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;

namespace {

TrainAnswer in_range(const char* id, TrainDuty duty = TrainDuty::pull) {
  const Drive drive = demo_train();
  TrainAnswer answer = settle_train(drive, applied_in(*drive.range(id)), duty);
  if (answer.state == TrainState::drives) {
    CHECK(answer.torques_balance);
    CHECK(answer.powers_balance);
  }
  return answer;
}

TrainAnswer with(const AppliedElements& applied, TrainDuty duty = TrainDuty::pull) {
  return settle_train(demo_train(), applied, duty);
}

std::string speed(const TrainAnswer& answer, const char* member) {
  const auto& figure = answer.member(member)->speed;
  return figure ? figure->fraction : "free";
}

std::string torque(const TrainAnswer& answer, const char* element) {
  const auto& figure = answer.element(element)->torque;
  return figure ? figure->fraction : "shared";
}

std::string doing(const TrainAnswer& answer, const char* element) {
  return word_for(answer.element(element)->doing);
}

bool tells(const std::vector<std::string>& lines, const std::string& words) {
  return std::ranges::any_of(
      lines, [&](const std::string& line) { return line.find(words) != std::string::npos; });
}

} // namespace

TEST_CASE("the demo's first, in exact fractions") {
  // The tooth counts are invented; the figures follow from them by hand.
  const TrainAnswer first = in_range("D1");
  CHECK(first.state == TrainState::drives);
  CHECK(first.ratio->fraction == "61/25");
  CHECK(speed(first, "front_ring") == "1");
  CHECK(speed(first, "sun") == "-625/671");
  CHECK(speed(first, "output") == "25/61");
  CHECK(speed(first, "rear_carrier") == "0");
  CHECK(speed(first, "outer_race") == "free");
  CHECK(doing(first, "low roller clutch") == "holds");
  CHECK(doing(first, "drum one-way") == "free");
  CHECK(doing(first, "upper clutch") == "on");
  CHECK(doing(first, "middle clutch") == "off");
  // The train pushes the rear carrier counter-clockwise with 1.44 times the input's torque, so the
  // case holds against it clockwise: 518.4 N m for 360.
  CHECK(torque(first, "low roller clutch") == "36/25");
  CHECK(torque(first, "upper clutch") == "-1");
  CHECK(first.case_torque.fraction == "36/25");
  CHECK(first.output_torque->fraction == "-61/25");
  // The front pinion: 33 (sun - carrier) = -21 (pinion - carrier).
  CHECK(first.pinions[0].about_pin->fraction == "900/427");
  CHECK(first.degrees_of_freedom == 2); // the input, and the race that nothing holds
  CHECK(in_range("D1", TrainDuty::coast).state == TrainState::neutral);
  CHECK(doing(in_range("D1", TrainDuty::coast), "low roller clutch") == "overruns");
}

TEST_CASE("the demo's second, third and reverse") {
  const TrainAnswer second = in_range("D2");
  CHECK(second.ratio->fraction == "36/25");
  CHECK(speed(second, "sun") == "0");
  CHECK(speed(second, "rear_carrier") == "625/1296");
  CHECK(torque(second, "case clutch") == "11/25");
  CHECK(torque(second, "drum one-way") == "11/25");
  CHECK(doing(second, "drum one-way") == "holds");
  CHECK(doing(second, "low roller clutch") == "overruns");
  CHECK(in_range("D2", TrainDuty::coast).state == TrainState::neutral);

  const TrainAnswer third = in_range("D3");
  CHECK(third.ratio->fraction == "1");
  CHECK(torque(third, "upper clutch") == "-25/36");  // 131.9 N m of 190
  CHECK(torque(third, "middle clutch") == "-11/36"); // 58.1 N m
  CHECK(torque(third, "case clutch") == "0");
  CHECK(doing(third, "drum one-way") == "overruns");
  CHECK(third.case_torque.fraction == "0");
  CHECK(in_range("D3", TrainDuty::coast).ratio->fraction == "1");

  const TrainAnswer reverse = in_range("R");
  CHECK(reverse.ratio->fraction == "-25/11");
  CHECK(speed(reverse, "output") == "-11/25");
  CHECK(speed(reverse, "front_ring") == "-671/625");
  // Against the clockwise push of 3.27 the roller clutch would turn free: the band alone holds.
  CHECK(torque(reverse, "lower band") == "-36/11");
  CHECK(doing(reverse, "low roller clutch") == "stands");
}

TEST_CASE("bands beside one-way clutches hold both ways") {
  const TrainAnswer low = in_range("M1");
  CHECK(low.ratio->fraction == "61/25");
  CHECK(torque(low, "lower band") == "shared");
  CHECK(torque(low, "low roller clutch") == "shared");
  CHECK(low.element("lower band")->most_torque == Approx(1.44));
  CHECK(low.element("low roller clutch")->most_torque == Approx(1.44));
  CHECK(low.element("lower band")->shares_with == std::vector<std::string>{"low roller clutch"});
  // Coasting, the band alone can.
  const TrainAnswer coast = in_range("M1", TrainDuty::coast);
  CHECK(coast.ratio->fraction == "61/25");
  CHECK(torque(coast, "lower band") == "36/25");
  CHECK(doing(coast, "low roller clutch") == "stands");
  const TrainAnswer second = in_range("M2", TrainDuty::coast);
  CHECK(second.ratio->fraction == "36/25");
  CHECK(torque(second, "upper band") == "11/25"); // 30.8 N m of 70
  CHECK(torque(second, "case clutch") == "0");
}

TEST_CASE("neutral, parked, locked, tied up") {
  CHECK(in_range("N").state == TrainState::neutral);
  CHECK_FALSE(in_range("N").output_held);
  CHECK(in_range("N").words == "Neutral: the input turns and nothing drives the output.");

  Drive parked = demo_train();
  DriveElement pawl = parked.elements.front();
  pawl.id = pawl.name = "pawl";
  pawl.of = "output";
  pawl.to = case_member;
  parked.elements.push_back(pawl);
  const TrainAnswer park = settle_train(parked, {{"pawl"}, {}, {}}, TrainDuty::pull);
  CHECK(park.state == TrainState::neutral);
  CHECK(park.output_held);
  CHECK(settle_train(parked, {{"pawl"}, {}, {}}, TrainDuty::coast).state == TrainState::locked);
  CHECK(settle_train(parked, {{"pawl", "upper clutch"}, {}, {}}, TrainDuty::coast).words ==
        "Locked: the output cannot turn.");

  // Third with a band on the sun: the input asks the sun to turn.
  const TrainAnswer tied = with({{"upper clutch", "middle clutch", "upper band"}, {}, {}});
  CHECK(tied.state == TrainState::fighting);
  CHECK(tied.blamed == std::vector<std::string>{"middle clutch", "upper band"});
  CHECK(tied.words == "Tied up: the input cannot turn. middle clutch and upper band ask for "
                      "different ratios; without any one of them it would drive.");
  // Both reaction members held: as good as parked, and the engine stalls.
  CHECK(with({{"upper clutch", "upper band", "lower band"}, {}, {}}).state == TrainState::fighting);
}

TEST_CASE("one-way clutches that are not as they should be") {
  // Reversed, the low roller clutch lets the carrier run back: no first; and holds it in second,
  // where it has to turn: tied up.
  const AppliedElements first{{"upper clutch"}, {"low roller clutch"}, {}};
  CHECK(with(first).state == TrainState::neutral);
  CHECK(doing(with(first), "low roller clutch") == "overruns");
  const AppliedElements second{{"upper clutch", "case clutch"}, {"low roller clutch"}, {}};
  CHECK(with(second).words ==
        "Locked: the input cannot turn; without low roller clutch it would drive.");
  CHECK(with({{"upper clutch"}, {}, {"low roller clutch"}}).state == TrainState::neutral);
  // Fallen out, manual low still drives, by its band.
  CHECK(with({{"upper clutch", "lower band"}, {}, {"low roller clutch"}}).ratio->fraction ==
        "61/25");
  // Seized, it holds both ways: first brakes, second is tied up.
  CHECK(with({{"upper clutch", "low roller clutch"}, {}, {}}, TrainDuty::coast).ratio->fraction ==
        "61/25");
  CHECK(with({{"upper clutch", "case clutch", "low roller clutch"}, {}, {}}).state ==
        TrainState::fighting);
}

TEST_CASE("an engine that turns the other way") {
  Drive drive = demo_train();
  drive.engine_clockwise = false;
  // The one-way clutches are still free clockwise, and now that is the wrong way.
  CHECK(settle_train(drive, {{"upper clutch"}, {}, {}}, TrainDuty::pull).state ==
        TrainState::neutral);
  for (DriveElement& element : drive.elements) {
    element.free_clockwise = !element.free_clockwise;
  }
  const TrainAnswer answer = settle_train(drive, {{"upper clutch"}, {}, {}}, TrainDuty::pull);
  CHECK(answer.ratio->fraction == "61/25");
  CHECK(turning_word(drive, answer.member("output")->speed->value) == "counter-clockwise");
  CHECK(turning_word(drive, 0) == "still");
}

TEST_CASE("trains that cannot be solved are said so") {
  const Drive sound = demo_train();
  CHECK(train_troubles(sound).empty());
  const auto refused = [](const Drive& drive, const std::string& words) {
    const TrainAnswer answer = settle_train(drive, {}, TrainDuty::pull);
    CHECK(answer.state == TrainState::refused);
    CHECK(answer.words == words);
    const CalculationReport report = report_train(drive, {}, "title");
    CHECK(report.verdict == ReportVerdict::refused);
    CHECK(report.verdict_words == words);
  };
  refused(Drive{}, "The input is nothing: no such member.");
  Drive drive = sound;
  drive.output = "tail";
  refused(drive, "The output is 'tail': no such member.");
  drive = sound;
  drive.output = drive.input;
  refused(drive, "Input and output are one member: there is no train between them.");
  drive = sound;
  drive.sets[0].carrier = "spider";
  refused(drive, "The set 'front' has 'spider' for its carrier: no such member.");
  drive = sound;
  drive.sets[0].sun = drive.sets[0].ring = "";
  refused(drive, "The set 'front' has neither sun nor ring.");
  drive = sound;
  drive.sets[1].pinion_teeth = 0;
  refused(drive, "The set 'rear' has a gear without teeth: every tooth count must be stated.");
  drive = sound;
  drive.sets[1].sun_teeth = -33;
  refused(drive, "The set 'rear' has a gear without teeth: every tooth count must be stated.");
  drive = sound;
  drive.sets[1].carrier = "sun";
  refused(drive,
          "The set 'rear' has its carrier and a gear on one member: it cannot but turn as one.");
  drive = sound;
  drive.elements[0].to = "hub";
  refused(drive, "The element 'upper clutch' takes hold of 'hub': no such member.");
  drive = sound;
  drive.elements[0].to = drive.elements[0].of;
  refused(drive, "The element 'upper clutch' has one member on both sides.");
  drive = sound;
  for (int i = 0; i < 10; ++i) {
    drive.elements.push_back(drive.elements[5]);
  }
  CHECK(settle_train(drive, {}, TrainDuty::pull).state == TrainState::refused);

  CHECK(with({{"fourth clutch"}, {}, {}}).words == "There is no element 'fourth clutch'.");
  CHECK(with({{}, {"lower band"}, {}}).words ==
        "'lower band' is no one-way clutch: it cannot be reversed or fall out.");
}

TEST_CASE("a range told in full") {
  const Drive drive = demo_train();
  const CalculationReport report = report_range(drive, *drive.range("D1"), 360.0);
  CHECK(report.id == "D1");
  CHECK(report.title == "Gear train, first");
  CHECK(report.verdict == ReportVerdict::good);
  CHECK(report.verdict_words ==
        "It drives at 61/25 (2.440), the output turning clockwise; low roller clutch holds. "
        "Coasting: No engine braking: the output turns and nothing drives the input; low roller "
        "clutch overruns.");
  const std::vector<std::string> lines = lines_of(report, LengthUnit::millimetre);
  CHECK(tells(lines, "33 x -0.9314 + 75 x 1.000 = 108 x 0.4098 (carrier)"));
  CHECK(tells(lines, "518.4 N m"));
  CHECK(tells(lines, "878.4 N m"));
  CHECK(tells(lines, "Nothing settles the speed of outer_race."));
  CHECK(tells(lines, "sum to exactly nothing"));
  // The same torque in a shop's units, and what a slip between them would do.
  CHECK(tells(lines_of(report, LengthUnit::inch), "382.4 lbf ft"));
  CHECK(tells(
      lines_of(report_range(drive, *drive.range("D1"), 360.0 * 1.3558179), LengthUnit::millimetre),
      "702.9 N m"));
  // Coasting torques are the band's; without a torque they are shares.
  CHECK(tells(lines_of(report_range(drive, *drive.range("M2"), -70.0), LengthUnit::millimetre),
              "-30.80 N m"));
  CHECK(tells(lines_of(report_range(drive, *drive.range("M1")), LengthUnit::millimetre),
              "hold the same thing"));
  CHECK(report_range(drive, *drive.range("N")).verdict == ReportVerdict::none);
  CHECK(report_train(drive, {{"upper clutch", "upper band", "lower band"}, {}, {}}, "x").verdict ==
        ReportVerdict::bad);
}

TEST_CASE("tooth counts that do not go together") {
  PlanetarySet set = demo_train().sets.front();
  CHECK(report_set(set).verdict == ReportVerdict::good); // 33 + 2 x 21 = 75, 108 / 4 = 27
  set.pinions = 5;
  CHECK(report_set(set).verdict_words ==
        "Not a whole number: 5 pinions do not go in at equal spacing.");
  set.pinions = 0;
  CHECK(report_set(set).verdict == ReportVerdict::good);
  set.ring_teeth = 76;
  CHECK(report_set(set).verdict_words ==
        "The ring has 76 teeth where sun and pinions make 75: they fit only with shifted teeth.");
  set.sun_teeth = 0;
  CHECK(report_set(set).verdict == ReportVerdict::refused);
  // Double: what counts is the difference. Stepped: both pinions, and what divides them.
  set = demo_train().sets.front();
  set.kind = PlanetaryKind::double_pinion;
  set.outer_pinion_teeth = 20;
  set.pinions = 3;
  CHECK(report_set(set).verdict == ReportVerdict::good); // 42 / 3
  set.pinions = 4;
  CHECK(report_set(set).verdict == ReportVerdict::bad);
  set.kind = PlanetaryKind::stepped_pinion;
  set.pinion_teeth = 24;
  set.outer_pinion_teeth = 18;
  set.pinions = 3; // (33 x 18 + 75 x 24) / (3 x 6) = 133
  CHECK(report_set(set).verdict == ReportVerdict::good);
  set.pinions = 4; // 99.75
  CHECK(report_set(set).verdict == ReportVerdict::bad);
}
