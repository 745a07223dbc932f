#include "scene/pack/bench_reading.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

constexpr std::size_t most_places = 24;
constexpr double slip_within = 0.10;

struct Known {
  Instrument instrument;
  const char* word;
  double resolution_m;
};
constexpr std::array<Known, 5> known_instruments{{{Instrument::feeler, "feeler gauge", 0.02e-3},
                                                  {Instrument::micrometer, "micrometer", 0.01e-3},
                                                  {Instrument::caliper, "caliper", 0.02e-3},
                                                  {Instrument::depth_gauge, "depth gauge", 0.02e-3},
                                                  {Instrument::dial, "dial indicator", 0.01e-3}}};

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

bool near(double ratio) {
  return std::abs(ratio - 1) < slip_within;
}

std::string why_not(const BenchReading& reading) {
  const std::vector<double>& places = reading.places_m;
  if (places.empty()) {
    return "Nothing was read.";
  }
  if (places.size() > most_places) {
    return std::to_string(places.size()) + " places of one thing: " + std::to_string(most_places) +
           " at most.";
  }
  for (const double place_m : places) {
    if (!std::isfinite(place_m)) {
      return "A figure among the places is no figure.";
    }
    if (place_m < 0) {
      return mm(place_m) + " was read: a reading is not below nothing.";
    }
  }
  const auto [least, greatest] = std::ranges::minmax(places);
  if (least > 0 && near(greatest / least * millimetre_m / inch_m)) {
    return mm(least) + " and " + mm(greatest) +
           " of one thing, 25.4 times apart: inches among millimetres?";
  }
  const double middle_m = (least + greatest) / 2;
  if (greatest - least > std::max(middle_m / 2, 0.2e-3)) {
    return mm(least) + " and " + mm(greatest) +
           " of one thing contradict each other: read them again, and clean what is read.";
  }
  return {};
}

} // namespace

std::string word_for(Instrument instrument) {
  for (const Known& known : known_instruments) {
    if (known.instrument == instrument) {
      return known.word;
    }
  }
  return {};
}

std::optional<Instrument> instrument_from(const std::string& word) {
  for (const Known& known : known_instruments) {
    const std::string whole = known.word;
    if (word == whole || (word == "feeler" && known.instrument == Instrument::feeler) ||
        (word == "dial" && known.instrument == Instrument::dial)) {
      return known.instrument;
    }
  }
  return std::nullopt;
}

double usual_resolution_m(Instrument instrument) {
  for (const Known& known : known_instruments) {
    if (known.instrument == instrument) {
      return known.resolution_m;
    }
  }
  return 0;
}

Correction less_bar(double thickness_m, double plus_minus_m) {
  return {"less the gauge bar", -thickness_m, plus_minus_m, "the bar's own thickness"};
}

Correction seal_drag(double held_off_m, double plus_minus_m) {
  return {"piston held off its seat", held_off_m, plus_minus_m,
          "a seal's drag: the pack reads tight"};
}

Correction groove_wear(double step_m, double plus_minus_m) {
  return {"less the step worn into the groove", -step_m, plus_minus_m,
          "a new groove would have that much less"};
}

Outcome<ReadResult> result_of(const BenchReading& reading) {
  std::string why = why_not(reading);
  if (!why.empty()) {
    return Problem{std::move(why)};
  }
  ReadResult result;
  const auto count = static_cast<double>(reading.places_m.size());
  const auto [least, greatest] = std::ranges::minmax(reading.places_m);
  result.least_m = least;
  result.greatest_m = greatest;
  for (const double place_m : reading.places_m) {
    result.mean_m += place_m / count;
  }
  double squares_m2 = 0;
  for (const double place_m : reading.places_m) {
    squares_m2 += (place_m - result.mean_m) * (place_m - result.mean_m);
  }
  const double step_m =
      reading.resolution_m > 0 ? reading.resolution_m : usual_resolution_m(reading.instrument);
  result.scatter_m = count > 1 ? std::sqrt(squares_m2 / (count - 1) / count) : 0;
  result.resolution_u_m = step_m / 2 / std::numbers::sqrt3;
  result.plus_minus_m = (greatest - least) / 2 + step_m / 2;
  if (reading.plus_minus_m > 0) {
    result.scatter_m = 0;
    result.resolution_u_m = reading.plus_minus_m / std::numbers::sqrt3;
    result.plus_minus_m = reading.plus_minus_m;
  }
  double variance_m2 =
      result.scatter_m * result.scatter_m + result.resolution_u_m * result.resolution_u_m;
  result.corrected_m = result.mean_m;
  for (const Correction& correction : reading.corrections) {
    result.corrected_m += correction.add_m;
    result.plus_minus_m += correction.plus_minus_m;
    variance_m2 += correction.plus_minus_m * correction.plus_minus_m / 3;
  }
  result.standard_m = std::sqrt(variance_m2);
  if (result.scatter_m > 0) { // Welch-Satterthwaite: only the scatter has degrees of freedom
    result.freedom = (count - 1) * std::pow(result.standard_m / result.scatter_m, 4);
  }
  return result;
}

UncertainInput input_of(const BenchReading& reading, const ReadResult& result, double sensitivity) {
  UncertainInput input{reading.of, result.corrected_m, sensitivity, Spread::normal};
  input.standard = result.standard_m;
  input.half_width = result.plus_minus_m;
  input.freedom = result.freedom;
  if (result.scatter_m == 0 && reading.corrections.empty()) {
    input.spread = Spread::rectangular;
  } else if (result.freedom > 0) {
    input.spread = Spread::students_t;
  }
  return input;
}

CalculationReport reading_report(const BenchReading& reading) {
  const auto result = result_of(reading);
  const std::string title = "Reading: " + reading.of;
  if (!result) {
    return refused_report(title, result.problem());
  }
  const ReadResult& read = result.value();
  CalculationReport report;
  report.title = title;
  for (std::size_t i = 0; i < reading.places_m.size(); ++i) {
    report.inputs.push_back(
        {reading.places_m.size() == 1 ? "read" : "place " + std::to_string(i + 1), FigureOf::length,
         reading.places_m[i], word_for(reading.instrument)});
  }
  report.working.push_back({"mean", FigureOf::length, read.mean_m, "for choosing"});
  if (reading.places_m.size() > 1) {
    report.working.push_back({"least", FigureOf::length, read.least_m, "for drag"});
    report.working.push_back({"spread", FigureOf::length, read.spread_m(), "for tilt"});
    report.working.push_back({"u of the scatter", FigureOf::length, read.scatter_m, "s / sqrt(n)"});
  }
  report.working.push_back(
      {"u of the resolution", FigureOf::length, read.resolution_u_m,
       reading.plus_minus_m > 0 ? "stated half width / sqrt(3)" : "half a step / sqrt(3)"});
  for (const Correction& correction : reading.corrections) {
    report.working.push_back({correction.what, FigureOf::length, correction.add_m, correction.how,
                              correction.plus_minus_m});
  }
  report.results.push_back(
      {"reading, corrected", FigureOf::length, read.corrected_m, "",
       (read.freedom > 0 ? coverage_factor(0.95, read.freedom) : 1.96) * read.standard_m});
  if (reading.fitted.empty()) {
    report.notes.emplace_back("Which selective was fitted is not stated: write it down with it.");
  } else {
    report.notes.push_back("With " + reading.fitted + " fitted.");
  }
  report.sources = {"JCGM 100:2008 (GUM), 4.2, 4.3.7 and F.2.2.1"};
  return report;
}

std::string inch_slip(double read_m, double expected_m) {
  if (read_m <= 0 || expected_m <= 0) {
    return {};
  }
  const double inch_in_mm = inch_m / millimetre_m;
  if (near(read_m * inch_in_mm / expected_m)) {
    return print_length_figure(read_m, LengthUnit::millimetre, 3) +
           " mm is 25.4 times less than expected: was it inches?";
  }
  if (near(read_m / inch_in_mm / expected_m)) {
    return print_length_figure(read_m, LengthUnit::inch, 3) +
           " in is 25.4 times more than expected: was it millimetres?";
  }
  return {};
}

} // namespace lugline
