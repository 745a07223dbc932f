// The views of figures: what they show of the demo unit, and their layout at every size and scale.
#include "tests/stage/page_judge.h"

#include "scene/load/load.h"
#include "viewer/stage/figures.h"
#include "viewer/stage/report_drawing.h"
#include "viewer/stage/typed.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace lugline;
using namespace lugline::test;

namespace {

const Stage& demo() {
  static const Stage stage(load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three").unit);
  return stage;
}

std::string told(const std::vector<std::string>& faults) {
  std::string all;
  for (std::size_t i = 0; i < std::min<std::size_t>(faults.size(), 5); ++i) {
    all += faults[i] + "\n";
  }
  return all;
}

FiguresPage air(double pressure_Pa, double watch_s, const std::string& element = "MC") {
  ViewState view;
  view.figures.element = element;
  view.figures.air_Pa.si = pressure_Pa;
  view.figures.watch_s = watch_s;
  return figures_page(demo(), view, FiguresKind::air);
}

std::vector<FiguresPage> pages(LengthUnit unit) {
  std::vector<FiguresPage> all;
  const FiguresLists lists = figures_lists(demo().unit());
  ViewState view;
  view.settings.unit = unit;
  for (const std::string& id : lists.packs) {
    view.figures.pack = id;
    all.push_back(figures_page(demo(), view, FiguresKind::pack));
  }
  for (const std::string& id : lists.plays) {
    view.figures.play = id;
    all.push_back(figures_page(demo(), view, FiguresKind::play));
  }
  for (const bool working : {false, true}) {
    view.figures.working = working;
    view.figures.range = "D second";
    all.push_back(figures_page(demo(), view, FiguresKind::train));
    for (const double watch_s : {0.0, 3.2, 71.0}) {
      view.figures.watch_s = watch_s;
      view.figures.element = "LB";
      all.push_back(figures_page(demo(), view, FiguresKind::air));
    }
  }
  return all;
}

} // namespace

TEST_CASE("every view is laid out with nothing cut off and nothing overlapping") {
  const WideRuler ruler;
  struct Size {
    double width_px;
    double height_px;
  };
  for (const LengthUnit unit : {LengthUnit::millimetre, LengthUnit::inch}) {
    for (const FiguresPage& figures : pages(unit)) {
      for (const Size& size : {Size{1366, 768}, Size{1920, 1080}, Size{3840, 2160}}) {
        for (const double scale : {1.0, 1.5, 2.0, 2.5}) {
          for (const bool panel : {true, false}) {
            PageInput page;
            page.width_px = size.width_px;
            page.height_px = size.height_px;
            page.scale = scale;
            page.rule.resize(20);
            const PageLayout layout = lay_out(without_step(page));
            const Box sheet = figures_sheet(layout, panel);
            const DrawnFigures drawn = draw_figures(figures, sheet, unit, ruler);
            INFO(figures.view << " " << figures.about << " " << size.width_px << " at " << scale
                              << (panel ? " beside the panel" : ""));
            const auto faults = faults_of(drawn.drawing, sheet, ruler);
            INFO(told(faults));
            CHECK(faults.empty());
          }
        }
      }
    }
  }
}

TEST_CASE("the pack's page shows the pack's own clearance, and the column that it comes from") {
  ViewState view;
  view.figures.pack = "CC";
  const FiguresPage page = figures_page(demo(), view, FiguresKind::pack);
  REQUIRE(page.column);
  REQUIRE(page.report.scale);
  CHECK(page.report.scale->value_si == Approx(page.column->clearance_m));
  CHECK(page.report.inputs.size() == page.column->plates.size());
  double sum_m = 0;
  for (const ReportLine& plate : page.report.inputs) {
    sum_m += plate.si;
  }
  const double space_m = page.report.working.front().si;
  CHECK(space_m - sum_m == Approx(page.report.results.front().si).margin(1e-9));
  CHECK(page.report.verdict == ReportVerdict::good);
  REQUIRE(page.selectives.size() == 1);
  CHECK(page.selectives.front().options.size() > 2);
}

TEST_CASE("a measured plate moves the pack's page, and it says that it was measured") {
  Stage stage(load_unit(LUGLINE_ROOT "/assets-demo/hobspindle-three").unit);
  ViewState view;
  view.figures.pack = "CC";
  const double before = figures_page(stage, view, FiguresKind::pack).report.scale->value_si;
  const std::string plate = stage.unit().packs.front().plates.back();
  REQUIRE(stage.unit().packs.front().id == "CC");
  stage.set_readings({{plate, {0.0048, 0}}});
  const FiguresPage page = figures_page(stage, view, FiguresKind::pack);
  CHECK(page.report.scale->value_si == Approx(before + 0.0002));
  CHECK(std::ranges::any_of(page.report.inputs, [](const ReportLine& line) {
    return line.how.find("measured") != std::string::npos;
  }));
}

TEST_CASE("air on a band's servo moves it as far as the unit states") {
  const FiguresPage band = air(250e3, 0, "LB");
  REQUIRE(band.air);
  CHECK(band.air->stroke_m == Approx(3.8e-3)); // of the demo, invented practice data
  CHECK(band.air->travel_m == Approx(3.8e-3));
}

TEST_CASE("air above the unit's limit is refused with the caution, and moves nothing") {
  const FiguresPage good = air(250e3, 0);
  CHECK(good.air->moves);
  CHECK(good.air->completes);
  const FiguresPage refused = air(300e3, 5);
  CHECK(refused.report.verdict == ReportVerdict::refused);
  CHECK_FALSE(refused.report.cautions.empty());
  CHECK_FALSE(refused.air->worked);
  CHECK_FALSE(refused.second);
  // The caution stands before every figure.
  const WideRuler ruler;
  for (const FiguresPage& page : {good, refused}) {
    const auto words =
        words_of(draw_figures(page, {0, 0, 900, 600}, LengthUnit::millimetre, ruler).drawing);
    const auto caution = std::ranges::find(words, kept_together(page.report.cautions.front()));
    const auto verdict = std::ranges::find_if(words, [&](const std::string& line) {
      return line.find(page.report.verdict_words.substr(0, 12)) != std::string::npos;
    });
    REQUIRE(caution != words.end());
    CHECK(caution < verdict);
  }
}

TEST_CASE("the longer it holds the smaller the hole, and the good hold's is good") {
  double hole_m = 1;
  for (const double watch_s : {1.0, 3.0, 6.0, 20.0}) {
    const FiguresPage page = air(250e3, watch_s);
    REQUIRE(page.second);
    REQUIRE(page.air->hole_m);
    CHECK(*page.air->hole_m < hole_m);
    hole_m = *page.air->hole_m;
    CHECK(page.second->verdict == (watch_s >= 6 ? ReportVerdict::good : ReportVerdict::bad));
  }
  CHECK_FALSE(air(250e3, 0).second);
}

TEST_CASE("torques and pressures are typed with their unit, or in the one that is shown") {
  CHECK(typed_figure("200", Dimension::torque, LengthUnit::millimetre).value().si == Approx(200));
  CHECK(typed_figure("150 lbf ft", Dimension::torque, LengthUnit::millimetre).value().si ==
        Approx(203.37).epsilon(1e-4));
  CHECK(typed_figure("36", Dimension::pressure, LengthUnit::inch).value().si ==
        Approx(248211).epsilon(1e-4));
  CHECK(typed_figure("250", Dimension::pressure, LengthUnit::millimetre).value().si ==
        Approx(250e3));
  CHECK_FALSE(typed_figure("250 N m", Dimension::pressure, LengthUnit::millimetre));
  CHECK_FALSE(typed_figure("1,5", Dimension::torque, LengthUnit::millimetre));
}
