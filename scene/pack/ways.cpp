#include "scene/pack/ways.h"

#include "scene/quantity/quantity.h"

#include <algorithm>
#include <utility>

namespace lugline {

namespace {

struct Known {
  PackWay way;
  const char* word;
  const char* words;
  Instrument instrument;
};
constexpr std::array<Known, 6> known_ways{
    {{PackWay::feeler_ring_up, "feeler", "feeler at the ring, ring up", Instrument::feeler},
     {PackWay::feeler_ring_down, "feeler ring down", "feeler at the ring, ring down",
      Instrument::feeler},
     {PackWay::feeler_pressed, "feeler pressed", "feeler at the ring, pack pressed",
      Instrument::feeler},
     {PackWay::depth, "depth", "depth gauge from the face", Instrument::depth_gauge},
     {PackWay::dial_lifted, "dial lifted", "dial, pack lifted", Instrument::dial},
     {PackWay::dial_air, "dial air", "dial, air on the piston", Instrument::dial}}};

const Known& known(PackWay way) {
  return *std::ranges::find(known_ways, way, &Known::way);
}

std::string why(const PackStand& stand, PackWay way) {
  switch (way) {
  case PackWay::feeler_ring_up:
    return stand.residual_m > 0 ? "clearance less the piston's rest off its seat"
                                : "the clearance itself";
  case PackWay::feeler_ring_down:
    return "less the ring's play in its groove";
  case PackWay::feeler_pressed:
    return stand.wave_label.empty() ? "nothing gives: as without pressing"
                                    : "and what the " + stand.wave_label + " gives";
  case PackWay::depth:
    return "from the " + stand.face + " to the last plate" +
           (stand.bar_m > 0 ? ", over the bar" : "");
  case PackWay::dial_lifted:
    return "lifting pushes the ring up";
  case PackWay::dial_air:
    return "the piston's travel to full clamp";
  }
  return {};
}

} // namespace

std::string word_for(PackWay way) {
  return known(way).word;
}

std::string words_for(PackWay way) {
  return known(way).words;
}

Instrument instrument_of(PackWay way) {
  return known(way).instrument;
}

std::optional<PackWay> pack_way_from(std::string_view word) {
  const auto found = std::ranges::find(known_ways, word, &Known::word);
  return found == known_ways.end() ? std::nullopt : std::optional(found->way);
}

std::optional<double> reads_m(const PackStand& stand, PackWay way) {
  const double free_m = stand.clearance_m - stand.residual_m;
  switch (way) {
  case PackWay::feeler_ring_up:
  case PackWay::dial_lifted:
    return free_m;
  case PackWay::feeler_ring_down:
    return free_m - stand.groove_play_m;
  case PackWay::feeler_pressed:
  case PackWay::dial_air:
    return free_m + stand.wave_m;
  case PackWay::depth:
    if (!stand.face_to_load_m) {
      return std::nullopt;
    }
    return *stand.face_to_load_m + stand.ring_m + free_m - stand.step_m + stand.bar_m;
  }
  return std::nullopt;
}

CalculationReport ways_report(const PackStand& stand) {
  CalculationReport report;
  report.id = stand.id;
  report.title = stand.name + ": what each way of measuring reads";
  report.inputs.push_back({"clearance", FigureOf::length, stand.clearance_m,
                           stand.wave_label.empty()
                               ? "ring up, piston home"
                               : "ring up, piston home, " + stand.wave_label + " free"});
  report.working.push_back(
      {"ring's play in its groove", FigureOf::length, stand.groove_play_m, "groove less ring"});
  if (!stand.wave_label.empty()) {
    report.working.push_back({"what the " + stand.wave_label + " gives", FigureOf::length,
                              stand.wave_m, "free less flat"});
  }
  if (stand.residual_m != 0) {
    report.working.push_back(
        {"piston held off its seat", FigureOf::length, stand.residual_m, "stated"});
  }
  if (stand.face_to_load_m) {
    report.working.push_back(
        {"face to the groove's load face", FigureOf::length, *stand.face_to_load_m, stand.face});
    if (stand.step_m != 0) {
      report.working.push_back({"last plate's rim above its step", FigureOf::length, stand.step_m,
                                "the rod comes down on the rim"});
    }
  }
  if (stand.bar_m != 0) {
    report.working.push_back({"gauge bar", FigureOf::length, stand.bar_m, "its own thickness"});
  }
  bool feeler_below = false;
  for (const PackWay way : all_pack_ways) {
    const auto reading_m = reads_m(stand, way);
    if (reading_m) {
      report.results.push_back({words_for(way), FigureOf::length, *reading_m, why(stand, way)});
      feeler_below = feeler_below || *reading_m < 0;
    }
  }
  if (feeler_below) {
    report.notes.emplace_back(
        "A reading below nothing: no blade enters, and the ring does not go in that way.");
  }
  report.sources = {"Common practice, no source"};
  return report;
}

Outcome<WayReading> way_reading_from(const std::string& text) {
  const std::size_t digit = text.find_first_of("0123456789.+-");
  std::string word = text.substr(0, digit);
  word.erase(word.find_last_not_of(' ') + 1);
  word.erase(0, word.find_first_not_of(' '));
  const auto way = pack_way_from(word);
  if (!way || digit == std::string::npos) {
    std::string words;
    for (const Known& each : known_ways) {
      words += (words.empty() ? "" : ", ") + std::string(each.word);
    }
    return Problem{"expected a way of measuring and a figure, such as \"feeler 0.90 mm\"; the ways "
                   "are: " +
                   words};
  }
  WayReading reading;
  reading.way = *way;
  reading.read.instrument = instrument_of(*way);
  for (std::size_t at = digit; at <= text.size();) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    std::string figure = text.substr(at, end - at);
    figure.erase(0, std::min(figure.find_first_not_of(' '), figure.size()));
    const auto length = parse_bench_quantity(figure, Dimension::length);
    if (!length) {
      return Problem{length.problem()};
    }
    reading.read.places_m.push_back(length.value().si);
    reading.read.plus_minus_m = std::max(reading.read.plus_minus_m, length.value().plus_minus_si);
    at = end + 1;
  }
  return reading;
}

} // namespace lugline
