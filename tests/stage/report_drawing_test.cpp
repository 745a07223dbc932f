// A calculation on its sheet: nothing cut off and nothing overlapping at any size and scale, and
// nothing said that the report does not say.
#include "tests/stage/page_judge.h"

#include "viewer/stage/figure_setting.h"
#include "viewer/stage/page.h"
#include "viewer/stage/report_drawing.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using namespace lugline;
using namespace lugline::test;

namespace {

struct Size {
  double width_px;
  double height_px;
};
constexpr Size sizes[] = {{1366, 768}, {1920, 1080}, {1024, 768}, {2560, 1440}, {3840, 2160}};
constexpr double all_scales[] = {1, 1.25, 1.5, 2, 2.5};

std::string told(const std::vector<std::string>& faults) {
  std::string all;
  for (std::size_t i = 0; i < std::min<std::size_t>(faults.size(), 5); ++i) {
    all += faults[i] + "\n";
  }
  return all;
}

ReportLine plate(const std::string& what, double thick_m) {
  return {what, FigureOf::length, thick_m, "measured, three places", 0.00001};
}

CalculationReport pack() {
  CalculationReport report;
  report.id = "CC";
  report.title = "Clearance of the case clutch";
  report.inputs = {plate("wave plate, free", 0.0028), plate("steel 1", 0.0015),
                   plate("friction 1", 0.0016),       plate("steel 2", 0.0015),
                   plate("friction 2", 0.0016),       plate("steel 3", 0.0015),
                   plate("friction 3", 0.0016),       plate("steel 4", 0.0015),
                   plate("friction 4", 0.0016),       plate("backing plate", 0.0048)};
  report.working = {
      {"stack", FigureOf::length, 0.0200, "the sum of ten plates, wave plate free", 0},
      {"piston area", FigureOf::area, 0.005504, "pi/4 (174^2 - 146^2)", 0},
      {"probability of being inside", FigureOf::share, 0.973, "100000 trials", 0}};
  report.results = {
      {"clearance", FigureOf::length, 0.0009, "space to the ring less the stack", 0.00006}};
  report.verdict = ReportVerdict::good;
  report.verdict_words = "0.90 mm is inside the limits 0.75 to 1.25 mm.";
  report.notes = {"The wave plate lies free."};
  report.sources = {"The unit's own limits."};
  report.scale = ReportScale{"clearance", FigureOf::length, 0.0009, 0.00006, 0.00075, 0.00125};
  return report;
}

/// More of everything than any calculation should have.
CalculationReport longest() {
  CalculationReport report = pack();
  report.title = "Clearance of the intermediate overrun clutch, rear of the centre support";
  report.verdict = ReportVerdict::bad;
  report.verdict_words =
      "12.90 mm is outside the limits 0.75 to 1.25 mm: 11.65 mm too loose, and no "
      "backing plate that can be had brings it inside.";
  report.cautions = {"Compressed air can blow a piston and its spring retainer out of a drum: wear "
                     "eye protection, keep hands and face off the open side."};
  for (int i = 0; i < 10; ++i) {
    report.inputs.push_back({"intermediate friction with its wet allowance, as measured",
                             FigureOf::length, 0.0016,
                             "micrometer, three places, least of them, less seal drag", 0.00002});
    report.working.push_back({"force that the return springs push back with", FigureOf::force,
                              854.4, "16 (672 + 5.7 (1.9 - 0.2)) / 16", 0});
    report.notes.push_back("The unit's own limits are taken as they are stated, at 20 degC, with "
                           "the ring seated against the upper face of its groove.");
  }
  return report;
}

bool says(const Drawing2d& drawing, const std::string& words) {
  const auto all = words_of(drawing);
  return std::ranges::find(all, words) != all.end();
}

} // namespace

TEST_CASE("a report is set with nothing cut off and nothing overlapping, whatever the room") {
  const WideRuler ruler;
  for (const CalculationReport& report : {pack(), longest()}) {
    for (const Size& size : sizes) {
      for (const double scale : all_scales) {
        for (const LengthUnit unit : {LengthUnit::millimetre, LengthUnit::inch}) {
          const double page = page_scale(size.width_px, size.height_px, scale);
          const Box box{20, 24, 0.66 * size.width_px / page, size.height_px / page - 120};
          const DrawnReport drawn = draw_report(report, box, unit, ruler);
          INFO(report.title << " " << size.width_px << " at " << scale << ", type " << drawn.type);
          const auto faults = faults_of(drawn.drawing, box, ruler);
          INFO(told(faults));
          CHECK(faults.empty());
        }
      }
    }
  }
}

TEST_CASE("on a small laptop the whole report is there in readable type") {
  const WideRuler ruler;
  const Box box{20, 24, 900, 620};
  const DrawnReport drawn = draw_report(pack(), box, LengthUnit::millimetre, ruler);
  CHECK(drawn.fits);
  CHECK(drawn.left_out == 0);
  CHECK(15 * drawn.type >= 11);
  for (const ReportLine& one : pack().inputs) {
    CHECK(says(drawn.drawing, kept_together(one.what)));
  }
  CHECK(says(drawn.drawing, kept_together(pack().verdict_words)));
}

TEST_CASE("what is left out for want of room is told, and the answer is never left out") {
  const WideRuler ruler;
  const Box box{20, 24, 460, 300};
  const DrawnReport drawn = draw_report(longest(), box, LengthUnit::millimetre, ruler);
  REQUIRE(drawn.left_out > 0);
  const auto words = words_of(drawn.drawing);
  CHECK(std::ranges::any_of(
      words, [](const std::string& line) { return line.find("12.90") != std::string::npos; }));
  if (drawn.left_out <= 3) {
    CHECK(std::ranges::any_of(
        words, [](const std::string& line) { return line.find("in part") != std::string::npos; }));
  }
}

TEST_CASE("a box with no room at all gives no crash and draws inside it") {
  const WideRuler ruler;
  for (const Box& box : {Box{0, 0, 40, 20}, Box{5, 5, 1, 1}, Box{0, 0, 2000, 10}}) {
    const DrawnReport drawn = draw_report(longest(), box, LengthUnit::inch, ruler);
    CHECK_FALSE(drawn.fits);
  }
}

TEST_CASE("a report that was refused says why, and shows no figure") {
  const WideRuler ruler;
  const CalculationReport report =
      refused_report("Capacity of the upper clutch", "The pressure is below the return spring.");
  const DrawnReport drawn =
      draw_report(report, {0, 0, 800, 600}, LengthUnit::millimetre, ruler, {"Capacity"});
  CHECK(words_of(drawn.drawing) ==
        std::vector<std::string>{"Capacity", "Capacity of the upper clutch",
                                 "The pressure is below the return spring."});
}

TEST_CASE("figures are set as a book sets them, and stay what they were") {
  CHECK(well_set("pi/4 (174^2 - 146^2)") == "π/4 (174² − 146²)");
  CHECK(well_set("piston, -3.5 mm2 +/- 2") == "piston, −3.5 mm² ± 2");
  CHECK(well_set("one-way clutch 2-3") == "one-way clutch 2-3");
  CHECK(well_set("at 20 degC") == "at 20 °C");
  const SetFigure area = set_figure(FigureOf::area, 0.010295, 0, LengthUnit::millimetre);
  CHECK(area.number() == "10295");
  CHECK(area.unit == "mm²");
  const SetFigure torque = set_figure(FigureOf::torque, -158.4, 2, LengthUnit::millimetre);
  CHECK(torque.number() == "−158.4");
  CHECK(torque.unit == "N m");
  CHECK(torque.plus_minus == "± 2.000");
  // A hundredth of a millimetre is not nothing in inches.
  CHECK(set_figure(FigureOf::length, 0.0015, 0.00001, LengthUnit::inch).plus_minus == "± 0.0004");
}

TEST_CASE("the value stands on its scale where it is, inside the limits or out") {
  const WideRuler ruler;
  const Box box{0, 0, 400, 80};
  const auto pointer_x = [&](double value_m) {
    Drawing2d drawing;
    put_scale(drawing, {"clearance", FigureOf::length, value_m, 0, 0.00075, 0.00125}, box, 1, false,
              LengthUnit::millimetre, ruler);
    for (const FlatShape& shape : drawing.shapes) {
      if (const auto* pointer = std::get_if<PolygonShape>(&shape)) {
        return pointer->points[2].x_px;
      }
    }
    return -1.0;
  };
  const auto band = [&](double value_m) {
    Drawing2d drawing;
    put_scale(drawing, {"clearance", FigureOf::length, value_m, 0, 0.00075, 0.00125}, box, 1, false,
              LengthUnit::millimetre, ruler);
    return std::get<RectShape>(drawing.shapes.front());
  };
  for (const double inside_m : {0.00076, 0.001, 0.00124}) {
    CHECK(pointer_x(inside_m) > band(inside_m).x_px);
    CHECK(pointer_x(inside_m) < band(inside_m).x_px + band(inside_m).width_px);
  }
  for (const double above_m : {0.0013, 0.005}) {
    CHECK(pointer_x(above_m) > band(above_m).x_px + band(above_m).width_px);
    CHECK(pointer_x(above_m) < box.right_px());
  }
  CHECK(pointer_x(0.0002) < band(0.0002).x_px);
  CHECK(pointer_x(0.0002) >= 0);
}
