// The gear train's picture: where its ends stand, what is in reach of the mouse, and that nothing
// runs into anything, for the demo's ranges and for other arrangements.
#include "tests/stage/page_judge.h"

#include "scene/load/load.h"
#include "viewer/stage/figures.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace lugline;
using namespace lugline::test;

namespace {

const Stage& demo() {
  static const Stage stage(load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three").unit);
  return stage;
}

FiguresPage train_page(const std::string& range, LengthUnit unit = LengthUnit::millimetre) {
  ViewState view;
  view.figures.range = range;
  view.settings.unit = unit;
  return figures_page(demo(), view, FiguresKind::train);
}

double along(const Lever& lever, const std::string& member) {
  const auto found = std::ranges::find(lever.nodes, member, &LeverNode::member);
  REQUIRE(found != lever.nodes.end());
  return found->along;
}

std::string told(const std::vector<std::string>& faults) {
  std::string all;
  for (std::size_t i = 0; i < std::min<std::size_t>(faults.size(), 5); ++i) {
    all += faults[i] + "\n";
  }
  return all;
}

const TrainElement& element(const TrainPicture& train, const std::string& id) {
  const auto found = std::ranges::find(train.elements, id, &TrainElement::id);
  REQUIRE(found != train.elements.end());
  return *found;
}

/// Two sets on one carrier and one ring: a large sun with single, a small one with double pinions.
TrainPicture two_suns() {
  TrainPicture train;
  train.input = "in";
  train.output = "ring";
  train.sets = {{"front", "large sun", "carrier", "ring", -76.0 / 36, false, 0, 0, 0},
                {"rear", "small sun", "carrier", "ring", 76.0 / 30, false, 0, 0, 0}};
  train.members = {{"in", "Input shaft", 1.0, true},
                   {"large sun", "Large sun", 0.0, false},
                   {"small sun", "Small sun", 1.0, true},
                   {"carrier", "Carrier", 0.45, false},
                   {"ring", "Ring gear", 0.67, true}};
  train.elements = {
      {"F", "Forward clutch", ElementKind::clutch, "in", "small sun", ElementLook::on, 200, true},
      {"R", "Reverse clutch", ElementKind::clutch, "in", "large sun", ElementLook::off, {}, false},
      {"B", "Intermediate band", ElementKind::band, "large sun", "case", ElementLook::on, 80,
       false},
      {"L", "Lock-up clutch", ElementKind::clutch, "carrier", "ring", ElementLook::off, {}, false},
      {"O",
       "Low one-way clutch",
       ElementKind::one_way_clutch,
       "carrier",
       "case",
       ElementLook::overruns,
       {},
       false}};
  train.fastest = 1.5;
  train.slowest = -0.6;
  return train;
}

} // namespace

TEST_CASE("sets that share two members are one lever, its ends as the tooth counts say") {
  const FiguresPage page = train_page("D first");
  const std::vector<Lever> levers = levers_of(page.train->sets);
  REQUIRE(levers.size() == 1);
  const Lever& lever = levers.front();
  REQUIRE(lever.nodes.size() == 4);
  CHECK(lever.sets.size() == 2);
  // sun to carrier : carrier to ring = ring teeth : sun teeth, of both sets.
  const double sun = along(lever, "sun");
  const double out = along(lever, "output");
  CHECK(std::abs(out - sun) / std::abs(along(lever, "main shaft") - out) == Approx(75.0 / 33));
  const double carrier = along(lever, "reaction carrier");
  CHECK(std::abs(carrier - sun) / std::abs(out - carrier) == Approx(75.0 / 33));
}

TEST_CASE("in every range the speeds of a lever lie on one straight line") {
  for (const FiguresOption& range : train_page("").options) {
    const FiguresPage page = train_page(range.id);
    for (const Lever& lever : levers_of(page.train->sets)) {
      std::vector<std::pair<double, double>> points;
      for (const LeverNode& node : lever.nodes) {
        if (const auto& speed = page.train->member(node.member)->speed) {
          points.emplace_back(node.along, *speed);
        }
      }
      INFO(range.id);
      for (std::size_t i = 2; i < points.size(); ++i) {
        const double slope =
            (points[1].second - points[0].second) / (points[1].first - points[0].first);
        CHECK(points[i].second ==
              Approx(points[0].second + slope * (points[i].first - points[0].first)).margin(1e-9));
      }
    }
  }
}

TEST_CASE("the torques on a lever hold each other, as forces on a bar do") {
  for (const char* range : {"D first", "D second", "Reverse"}) {
    const FiguresPage page = train_page(range);
    const TrainPicture& train = *page.train;
    for (const Lever& lever : levers_of(train.sets)) {
      double sum = 0;
      double moment = 0;
      double most = 0;
      for (const LeverNode& node : lever.nodes) {
        const double torque = lever_torque_Nm(train.sets, lever, node.member);
        sum += torque;
        moment += torque * node.along;
        most = std::max(most, std::abs(torque));
      }
      INFO(range);
      CHECK(most > 100);
      CHECK(std::abs(sum) < 1e-9 * most);
      CHECK(std::abs(moment) < 1e-9 * most);
    }
  }
}

TEST_CASE("what holds, what overruns and where power goes are as the range has them") {
  const FiguresPage first = train_page("D first");
  CHECK(element(*first.train, "UC").look == ElementLook::on);
  CHECK(element(*first.train, "UC").path);
  CHECK(element(*first.train, "LRC").look == ElementLook::holds);
  CHECK_FALSE(element(*first.train, "LRC").path); // it stands still: torque and no power
  CHECK(*element(*first.train, "LRC").torque_Nm == Approx(518.4));
  CHECK(std::abs(*first.train->output_Nm) == Approx(878.4));
  CHECK(first.train->member("main shaft")->path);
  CHECK_FALSE(first.train->member("reaction carrier")->path);

  const FiguresPage third = train_page("D third");
  CHECK(element(*third.train, "CC").look == ElementLook::on);
  CHECK(element(*third.train, "OWC").look == ElementLook::overruns);
  CHECK(*third.train->member("sun")->speed == Approx(1));

  const FiguresPage neutral = train_page("N");
  CHECK_FALSE(neutral.train->output_Nm);
  CHECK_FALSE(neutral.report.verdict_words.empty());
}

TEST_CASE("elements put on by hand replace the range's, and a train that fights itself says so") {
  ViewState view;
  view.figures.range = "D first";
  view.figures.on = std::vector<std::string>{"UC", "UB", "LB"};
  const FiguresPage page = figures_page(demo(), view, FiguresKind::train);
  CHECK(page.by_hand);
  CHECK(std::ranges::count(page.switches, true, &FiguresOption::chosen) == 3);
  CHECK(page.report.verdict != ReportVerdict::good);
  CHECK_FALSE(page.report.verdict_words.empty());
  CHECK_FALSE(page.train->output_Nm);
}

TEST_CASE("every element of every range has its place, and nothing runs into anything") {
  const WideRuler ruler;
  for (const FiguresOption& range : train_page("").options) {
    for (const LengthUnit unit : {LengthUnit::millimetre, LengthUnit::inch}) {
      const FiguresPage page = train_page(range.id, unit);
      for (const Box& box : {Box{0, 0, 860, 480}, Box{0, 0, 1300, 600}, Box{10, 20, 560, 330}}) {
        const DrawnTrain drawn = draw_train(*page.train, box, ruler);
        INFO(range.id << " " << box.width_px << " type " << drawn.type);
        CHECK(drawn.fits);
        CHECK(drawn.places.size() == page.train->elements.size());
        const auto faults = faults_of(drawn.drawing, box, ruler);
        INFO(told(faults));
        CHECK(faults.empty());
      }
    }
  }
}

TEST_CASE("another arrangement is drawn as well: two suns, a lock-up, one carrier") {
  const WideRuler ruler;
  const TrainPicture train = two_suns();
  CHECK(levers_of(train.sets).size() == 1);
  const Box box{0, 0, 1100, 520};
  const DrawnTrain drawn = draw_train(train, box, ruler);
  CHECK(drawn.fits);
  CHECK(drawn.places.size() == train.elements.size());
  const auto faults = faults_of(drawn.drawing, box, ruler);
  INFO(told(faults));
  CHECK(faults.empty());
}

TEST_CASE("a unit without a gear train says what is missing") {
  static const Stage bare(load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three").unit);
  Unit unit = bare.unit();
  unit.drive.reset();
  const Stage stage(std::make_shared<const Unit>(unit));
  for (const FiguresKind kind : {FiguresKind::train, FiguresKind::air}) {
    const FiguresPage page = figures_page(stage, {}, kind);
    CHECK(page.report.verdict == ReportVerdict::refused);
    CHECK(page.report.verdict_words.find("unit.toml") != std::string::npos);
    CHECK_FALSE(page.train);
    CHECK_FALSE(page.air);
  }
}
