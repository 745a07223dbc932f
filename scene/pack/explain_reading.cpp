// A reading of a pack, explained: what it means by the other ways, and what would give it.
#include "scene/pack/ways.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace lugline {

namespace {

constexpr double least_doubt_m = 0.03e-3; // a blade's step and a half: common practice, no source

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

/// Something that makes a reading differ from the sum of the plates.
struct Cause {
  std::string words;
  double by_m = 0;
};

bool reads_free(PackWay way) {
  return way != PackWay::feeler_pressed && way != PackWay::dial_air;
}

std::vector<Cause> causes_of(const PackStand& stand, PackWay way) {
  std::vector<Cause> causes;
  if (way == PackWay::feeler_ring_up) {
    causes.push_back({"the ring on the other side of its groove", -stand.groove_play_m});
  }
  if (way == PackWay::feeler_ring_down) {
    causes.push_back({"the ring pushed up after all", stand.groove_play_m});
  }
  if (!stand.wave_label.empty()) {
    causes.push_back(
        reads_free(way)
            ? Cause{"the " + stand.wave_label + " squeezed flat while reading", stand.wave_m}
            : Cause{"the " + stand.wave_label + " not pressed flat", -stand.wave_m});
    causes.push_back({"the " + stand.wave_label + " left out", stand.wave_m});
  }
  if (stand.step_m > 0) {
    causes.push_back({"the last plate the other way up, its step away from the ring",
                      way == PackWay::depth ? 0 : -stand.step_m});
    if (way == PackWay::depth) {
      causes.push_back({"the rod on the step, not on the rim", stand.step_m});
    }
  }
  if (way == PackWay::depth && stand.bar_m > 0) {
    causes.push_back({"the bar taken off already", -stand.bar_m});
  }
  for (const NamedThickness& plate : stand.plates) {
    causes.push_back({"one " + plate.label + " missing", plate.thickness_m});
    causes.push_back({"one " + plate.label + " too many", -plate.thickness_m});
  }
  std::erase_if(causes, [](const Cause& cause) { return std::abs(cause.by_m) < least_doubt_m; });
  return causes;
}

/// The corrected reading beside what the sum of the plates would give by that way.
struct Beside {
  ReadResult read;
  double expected_m = 0;
  [[nodiscard]] double differs_m() const { return read.corrected_m - expected_m; }
};

Outcome<Beside> beside(const PackStand& stand, const WayReading& reading) {
  const auto expected_m = reads_m(stand, reading.way);
  if (!expected_m) {
    return Problem{"From which face the depth was read is not known."};
  }
  auto read = result_of(reading.read);
  if (!read) {
    return Problem{read.problem()};
  }
  const Beside result{std::move(read).value(), *expected_m};
  const std::string slip = inch_slip(result.read.corrected_m, *expected_m);
  if (!slip.empty() && std::abs(result.differs_m()) > 0.3e-3) {
    return Problem{slip + " Nothing is worked out of it."};
  }
  return result;
}

void note_causes(CalculationReport& report, const PackStand& stand, PackWay way, double differs_m,
                 double doubt_m) {
  auto causes = causes_of(stand, way);
  std::ranges::stable_sort(causes, {},
                           [&](const Cause& cause) { return std::abs(cause.by_m - differs_m); });
  bool any = false;
  for (const Cause& cause : causes) {
    if (std::abs(cause.by_m - differs_m) <= doubt_m) {
      report.notes.push_back("Just that would come of " + cause.words + " (" + mm(cause.by_m) +
                             ").");
      any = true;
    }
  }
  if (!any && differs_m < 0) {
    report.notes.emplace_back("No one slip gives just that. Tight: a seal holds the piston off "
                              "its seat, dirt between plates, plates that are not flat?");
  } else if (!any) {
    report.notes.emplace_back("No one slip gives just that. Loose: plates worn, a step worn into "
                              "the groove, a wrong plate?");
  }
}

} // namespace

Outcome<ReadResult> clearance_meant(const PackStand& stand, const WayReading& reading) {
  const auto both = beside(stand, reading);
  if (!both) {
    return Problem{both.problem()};
  }
  ReadResult meant = both.value().read;
  const double clearance_m =
      stand.clearance_m + both.value().differs_m() + (stand.limits_wave_free ? 0 : stand.wave_m);
  meant.corrected_m = clearance_m;
  return meant;
}

CalculationReport explain_reading(const PackStand& stand, const WayReading& reading) {
  const std::string title = stand.name + ", read by " + words_for(reading.way);
  const auto both = beside(stand, reading);
  if (!both) {
    return refused_report(title, both.problem());
  }
  const ReadResult& read = both.value().read;
  const double differs_m = both.value().differs_m();
  const double doubt_m = std::max(least_doubt_m, read.plus_minus_m);
  CalculationReport report;
  report.id = stand.id;
  report.title = title;
  report.inputs.push_back({"reading", FigureOf::length, read.corrected_m,
                           reading.read.places_m.size() > 1
                               ? "mean of " + std::to_string(reading.read.places_m.size()) +
                                     " places, spread " + mm(read.spread_m())
                               : "",
                           read.plus_minus_m});
  report.working.push_back({"the sum of the plates gives", FigureOf::length,
                            both.value().expected_m, "by the same way"});
  report.working.push_back({"the reading differs by", FigureOf::length, differs_m, ""});
  PackStand meant = stand;
  meant.clearance_m += differs_m;
  const double judged_m = meant.clearance_m + (stand.limits_wave_free ? 0 : stand.wave_m);
  report.results.push_back({"clearance that it means", FigureOf::length, judged_m,
                            stand.wave_label.empty() ? "ring up, piston home"
                            : stand.limits_wave_free ? stand.wave_label + " free"
                                                     : stand.wave_label + " flat",
                            read.plus_minus_m});
  for (const PackWay way : all_pack_ways) {
    const auto other_m = reads_m(meant, way);
    if (way != reading.way && other_m) {
      report.results.push_back({"by " + words_for(way), FigureOf::length, *other_m, ""});
    }
  }
  const bool inside = judged_m >= stand.low_m - 1e-9 && judged_m <= stand.high_m + 1e-9;
  report.verdict = inside ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = mm(judged_m) + (inside ? " is inside " : " is outside ") +
                         mm(stand.low_m) + " to " + mm(stand.high_m) + ".";
  if (std::abs(differs_m) > doubt_m) {
    note_causes(report, stand, reading.way, differs_m, doubt_m);
  } else {
    report.notes.emplace_back("It agrees with the sum of the plates.");
  }
  report.sources = {"Common practice, no source"};
  return report;
}

CalculationReport compare_readings(const PackStand& stand,
                                   const std::vector<WayReading>& readings) {
  const std::string title = stand.name + ": readings beside each other";
  if (readings.size() < 2) {
    return refused_report(title, "One reading alone has nothing to agree with.");
  }
  CalculationReport report;
  report.id = stand.id;
  report.title = title;
  double low_m = -std::numeric_limits<double>::infinity();
  double high_m = std::numeric_limits<double>::infinity();
  double least_m = high_m;
  double greatest_m = low_m;
  for (const WayReading& reading : readings) {
    const auto meant = clearance_meant(stand, reading);
    if (!meant) {
      return refused_report(title, words_for(reading.way) + ": " + meant.problem());
    }
    const double doubt_m = std::max(least_doubt_m, meant.value().plus_minus_m);
    const double clearance_m = meant.value().corrected_m;
    report.results.push_back(
        {"clearance by " + words_for(reading.way), FigureOf::length, clearance_m, "", doubt_m});
    low_m = std::max(low_m, clearance_m - doubt_m);
    high_m = std::min(high_m, clearance_m + doubt_m);
    least_m = std::min(least_m, clearance_m);
    greatest_m = std::max(greatest_m, clearance_m);
  }
  const bool agree = low_m <= high_m;
  report.verdict = agree ? ReportVerdict::good : ReportVerdict::bad;
  report.verdict_words = agree ? "They agree within their doubts."
                               : "They contradict each other by " + mm(greatest_m - least_m) +
                                     ": one pack has one clearance. Read again.";
  const double apart_m = greatest_m - least_m;
  if (!agree && std::abs(apart_m - stand.groove_play_m) <= least_doubt_m) {
    report.notes.emplace_back("Just the ring's play in its groove: was it up for one of them?");
  }
  if (!agree && !stand.wave_label.empty() && std::abs(apart_m - stand.wave_m) <= least_doubt_m) {
    report.notes.push_back("Just what the " + stand.wave_label +
                           " gives: was it pressed for one of them?");
  }
  report.sources = {"Common practice, no source"};
  return report;
}

} // namespace lugline
