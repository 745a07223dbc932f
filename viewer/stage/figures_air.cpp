// The air check's view: which piston, what pressure, what should happen, and what the watch tells.
#include "viewer/stage/figures_parts.h"

#include "scene/build/drive_facts.h"
#include "scene/drive/air.h"

#include <algorithm>
#include <cmath>

namespace lugline::figures {

namespace {

constexpr double least_hold_s = 0.1; ///< below that nothing was timed

/// The travel that closes an element, as the build has it; none where its pack is never whole.
double stroke_of(const Stage& stage, const DriveElement& element) {
  const DriveFacts facts = drive_facts(stage.unit(), stage.check().packs);
  const auto found = facts.packs.find(element.id);
  return found == facts.packs.end() ? 0 : found->second.stroke_m;
}

class AirFiller {
public:
  AirFiller(const Stage& stage, const Drive& drive, const ViewState& view)
      : stage_(stage), drive_(drive), view_(view), unit_(view.settings.unit) {}

  void fill(FiguresPage& page) {
    const FiguresLists lists = figures_lists(stage_.unit());
    const std::string chosen = one_of(lists.air, view_.figures.element);
    page.choose = "element";
    for (const std::string& id : lists.air) {
      page.options.push_back({id, drive_.element(id)->name, id == chosen});
    }
    const DriveElement& element = *drive_.element(chosen);
    const AirTest& test = *drive_.air;
    page.about = element.name;
    pressure_ = view_.figures.air_Pa.si.value_or(test.test_Pa);
    page.asked = "pressure at the regulator";
    page.asked_figure = both(pressure_);
    page.typed = view_.figures.air_Pa;
    const AirPiston piston = air_piston(element, stroke_of(stage_, element));
    const AirReach reach = air_reach(piston, test, pressure_);
    page.report = reach.report;
    page.air = picture(element, piston, reach, test);
    if (reach.worked && view_.figures.watch_s >= least_hold_s) {
      hold(page, piston, test);
    }
  }

private:
  [[nodiscard]] std::string both(double pressure_Pa) const {
    const LengthUnit other = unit_ == LengthUnit::inch ? LengthUnit::millimetre : LengthUnit::inch;
    return print_pressure(pressure_Pa, unit_) + " (" + print_pressure(pressure_Pa, other) + ")";
  }

  [[nodiscard]] AirPicture picture(const DriveElement& element, const AirPiston& piston,
                                   const AirReach& reach, const AirTest& test) const {
    AirPicture air;
    air.name = element.name;
    air.band = element.kind == ElementKind::band;
    air.worked = reach.worked;
    air.outer_m = piston.piston.outer_m;
    air.inner_m = piston.piston.inner_m;
    air.travel_m = reach.travel_m;
    air.stroke_m = piston.stroke_m;
    air.most_stroke_m = piston.most_stroke_m;
    air.moves = reach.moves;
    air.completes = reach.completes;
    air.push_N = reach.push_N;
    air.clamp_N = reach.clamp_N;
    air.pressure_Pa = pressure_;
    air.floor_Pa = test.floor_Pa;
    air.watch_s = view_.figures.watch_s;
    air.watch_runs = view_.figures.watch_runs;
    air.good_hold_s = piston.good_hold_s;
    air.unit = unit_;
    return air;
  }

  /// Shut off at the pressure, so many seconds until the gauge reads the floor.
  void hold(FiguresPage& page, const AirPiston& piston, const AirTest& test) const {
    HoldReading reading;
    reading.from_Pa = pressure_;
    reading.to_Pa = test.floor_Pa;
    // As the watch shows it: a hand is no better than a tenth of a second.
    reading.seconds = std::floor(view_.figures.watch_s * 10 + 1e-6) / 10;
    const HoldResult told = leak_from_hold(piston, test, reading);
    page.second = told.report;
    if (told.worked && piston.good_hold_s > 0) {
      ReportScale scale;
      scale.what = "it held";
      scale.of = FigureOf::time;
      scale.value_si = told.full_hold_s;
      scale.low = piston.good_hold_s;
      if (!page.second->scale) {
        page.second->scale = scale;
      }
    }
    if (told.worked && told.hole_m > 0) {
      page.air->hole_m = told.hole_m;
    }
    if (told.worked && told.good_hole_m > 0) {
      page.air->good_hole_m = told.good_hole_m;
    }
  }

  const Stage& stage_;
  const Drive& drive_;
  const ViewState& view_;
  LengthUnit unit_;
  double pressure_ = 0; ///< Pa
};

} // namespace

void fill_air(FiguresPage& page, const Stage& stage, const ViewState& view) {
  page.view = "The air check";
  const std::optional<Drive>& drive = stage.unit().drive;
  if (!drive || !drive->air) {
    page.report = refused_report(
        "The air check", "This unit states no bench air: no pressure to test at, and none "
                         "that must not be passed. It is written in unit.toml under [air].");
    return;
  }
  if (figures_lists(stage.unit()).air.empty()) {
    page.report =
        refused_report("The air check", "This unit states no piston that air could move. It is "
                                        "written in unit.toml as the piston of an [[element]].");
    return;
  }
  AirFiller(stage, *drive, view).fill(page);
}

} // namespace lugline::figures
