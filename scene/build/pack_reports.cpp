#include "scene/build/pack_reports.h"

#include "scene/build/feature.h"
#include "scene/pack/disc_spring.h"
#include "scene/pack/frictions.h"
#include "scene/pack/uncertainty.h"
#include "scene/pack/wave.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lugline {

namespace {

double thickness_of(const Shape& shape) {
  return shape.high_m() - shape.low_m();
}

/// What a person calls the sort: "steel" for "steel 2".
std::string sort_label(const std::string& label) {
  const std::size_t end = label.find_last_not_of("0123456789");
  const std::size_t last = label.find_last_not_of(' ', end);
  return last == std::string::npos ? label : label.substr(0, last + 1);
}

BenchReading reading_of(const Workshop& workshop, const std::string& id) {
  const Measured& measured = workshop.readings().at(id);
  BenchReading reading;
  reading.of = workshop.label(id);
  reading.places_m =
      measured.places_m.empty() ? std::vector{measured.thickness_m} : measured.places_m;
  reading.instrument = measured.instrument;
  // What was stated with the figure holds; places and instrument tell it where nothing was.
  reading.plus_minus_m = measured.places_m.empty() && measured.instrument == Instrument::unstated
                             ? measured.plus_minus_m
                             : 0;
  return reading;
}

CalculationReport uncertainty_of(Workshop& workshop, const Pack& pack, const PackReport& report,
                                 std::uint64_t seed) {
  std::vector<UncertainInput> inputs;
  std::size_t nominal = 0;
  std::vector<std::string> ids = pack.plates;
  ids.push_back(pack.ring);
  for (const std::string& id : ids) {
    if (!workshop.readings().contains(id)) {
      ++nominal;
      continue;
    }
    const BenchReading reading = reading_of(workshop, id);
    const auto result = result_of(reading);
    if (result && result.value().standard_m > 0) {
      inputs.push_back(input_of(reading, result.value(), -1));
    } else {
      ++nominal;
    }
  }
  MonteCarloOptions options;
  options.seed = seed;
  options.low = report.low_m;
  options.high = report.high_m;
  CalculationReport told = uncertainty_report(report.name + ": how far off it may be",
                                              report.clearance_m, inputs, options);
  told.id = pack.id;
  if (nominal > 0 && told.verdict != ReportVerdict::refused) {
    told.notes.push_back(std::to_string(nominal) + " of " + std::to_string(ids.size()) +
                         " figures are nominal or without a doubt of their own: theirs is not "
                         "counted, nor that of case and piston.");
  }
  return told;
}

CalculationReport frictions_of(Workshop& workshop, const Pack& pack, const PackReport& report) {
  Frictions frictions;
  frictions.id = pack.id;
  frictions.name = pack.name;
  frictions.least_m = pack.friction_least_m;
  frictions.wet_m = pack.friction_wet_m;
  frictions.clearance_m = report.clearance_m;
  if (pack.each_friction) {
    frictions.each_low_m = pack.each_friction->low_m;
    frictions.each_high_m = pack.each_friction->high_m;
  }
  for (const std::string& id : pack.plates) {
    const Component& part = workshop.part(id);
    if (part.kind != ComponentKind::friction) {
      continue;
    }
    const Solid& as_new = workshop.unit().component(id)->part.solid;
    frictions.new_m = std::max(frictions.new_m, as_new.high_m() - as_new.low_m());
    frictions.plates.push_back({workshop.label(id), part.solid.high_m() - part.solid.low_m(),
                                workshop.readings().contains(id)});
  }
  return frictions_report(frictions);
}

/// The strip of a wave plate, its lugs left out; of a dished one all of it.
std::pair<double, double> strip_of(const Component& part) {
  double inner_m = 0;
  double outer_m = 0;
  for (const SectorRing& ring : part.solid.rings) {
    if (!ring.full()) {
      continue;
    }
    if (part.wave->waves > 0) {
      if (ring.outer_m - ring.inner_m > outer_m - inner_m) {
        inner_m = ring.inner_m;
        outer_m = ring.outer_m;
      }
    } else {
      inner_m = outer_m == 0 ? ring.inner_m : std::min(inner_m, ring.inner_m);
      outer_m = std::max(outer_m, ring.outer_m);
    }
  }
  return {2 * inner_m, 2 * outer_m};
}

std::vector<CalculationReport> springs_of(Workshop& workshop, const Pack& pack) {
  std::vector<CalculationReport> reports;
  for (const std::string& id : pack.plates) {
    const Component& part = workshop.part(id);
    if (!part.wave) {
      continue;
    }
    const auto [inner_m, outer_m] = strip_of(part);
    const WaveFigures& wave = *part.wave;
    if (wave.waves > 0) {
      const WavePlate plate{outer_m, inner_m, wave.flat_m, wave.free_m, wave.waves};
      reports.push_back(
          wave_report_at_height(workshop.label(id) + ", pressed flat", plate, wave.flat_m));
    } else {
      const DiscSpring disc{outer_m, inner_m, wave.flat_m, wave.free_m - wave.flat_m};
      reports.push_back(disc_report(workshop.label(id) + ", pressed flat, as a disc spring", disc,
                                    {}, disc.cone_m));
    }
    reports.back().id = id;
  }
  return reports;
}

std::string material_of(const Component& part) {
  return part.kind == ComponentKind::friction ? "friction lining" : part.material;
}

} // namespace

std::optional<PackStand> stand_now(Workshop& workshop, const Pack& pack, const BuildState& state) {
  const auto report = pack_now(workshop, pack, state);
  const PlaceState* place = state.place_with(pack.piston);
  const Fitted* host = place == nullptr ? nullptr : place->find(pack.ring_host);
  const auto groove =
      host == nullptr ? std::nullopt : groove_there(workshop, *host, pack.ring_groove);
  if (!report || !groove) {
    return std::nullopt;
  }
  PackStand stand;
  stand.id = pack.id;
  stand.name = pack.name;
  stand.clearance_m = report->clearance_free_m;
  stand.wave_m = report->clearance_flat_m - report->clearance_free_m;
  stand.wave_label = report->wave_label;
  stand.ring_m = thickness_of(workshop.loaded_ring(pack.ring, false));
  stand.groove_play_m = groove->high_m - groove->low_m - stand.ring_m;
  if (!report->lines.empty()) {
    const PackLine& last = report->lines.back();
    const bool steps = last.overall_m - last.counts_m > contact_tolerance_m;
    stand.step_m = steps ? last.overall_m - last.counts_m : 0;
  }
  stand.face_to_load_m =
      host->height_m + workshop.shape(host->id, host->over).high_m() - groove->high_m;
  stand.face = "highest face of the " + workshop.label(host->id);
  stand.low_m = pack.clearance.low_m;
  stand.high_m = pack.clearance.high_m;
  stand.limits_wave_free = pack.wave_free;
  for (const PackLine& line : report->lines) {
    const std::string label = sort_label(line.label);
    const bool known =
        std::ranges::find(stand.plates, label, &NamedThickness::label) != stand.plates.end();
    if (!known && !workshop.part(line.id).wave) {
      stand.plates.push_back({label, line.counts_m});
    }
  }
  return stand;
}

std::optional<WarmChain> warm_chain_now(Workshop& workshop, const Pack& pack,
                                        const BuildState& state) {
  const auto report = pack_now(workshop, pack, state);
  const PlaceState* place = state.place_with(pack.piston);
  const Fitted* piston = place == nullptr ? nullptr : place->find(pack.piston);
  const Fitted* host = place == nullptr ? nullptr : place->find(pack.ring_host);
  if (!report || piston == nullptr || host == nullptr) {
    return std::nullopt;
  }
  const double ring_m = thickness_of(workshop.loaded_ring(pack.ring, false));
  const double load_m = report->ring_face_m + ring_m;
  const double seat_m = piston->height_m + workshop.shape(pack.piston, piston->over).low_m();
  WarmChain chain;
  chain.id = pack.id;
  chain.name = pack.name;
  chain.clearance_m = report->clearance_free_m;
  chain.low_m = pack.clearance.low_m;
  chain.high_m = pack.clearance.high_m;
  const std::string host_label = workshop.label(host->id);
  const std::string host_material = workshop.part(host->id).material;
  const Fitted* support = place->find(piston->stands_on);
  if (support != nullptr && support->id != host->id) {
    const double base_m = support->height_m + workshop.shape(support->id, support->over).low_m();
    chain.links.push_back({workshop.label(support->id) + " up to the piston's seat",
                           seat_m - base_m, -1, workshop.part(support->id).material});
    chain.links.push_back(
        {host_label + " from there to the groove", load_m - base_m, 1, host_material});
  } else {
    chain.links.push_back(
        {host_label + ", piston's seat to the groove", load_m - seat_m, 1, host_material});
  }
  chain.links.push_back({workshop.label(pack.piston), report->piston_face_m - seat_m, -1,
                         workshop.part(pack.piston).material});
  for (const PackLine& line : report->lines) {
    chain.links.push_back({line.label, line.counts_m, -1, material_of(workshop.part(line.id))});
  }
  chain.links.push_back({workshop.label(pack.ring), ring_m, -1, workshop.part(pack.ring).material});
  return chain;
}

ChoiceQuestion choice_question(Workshop& workshop, const Pack& pack, const PackReport& report,
                               const Shelf& shelf, std::size_t most) {
  ChoiceQuestion question;
  question.clearance_m = report.clearance_m;
  question.low_m = report.low_m;
  question.high_m = report.high_m;
  question.most = most;
  for (const std::string& id : pack.selective) {
    const UnitComponent* component = workshop.unit().component(id);
    const Figure* thickness = workshop.part(id).figure("thickness");
    if (component == nullptr || thickness == nullptr || component->thickness_options_m.empty()) {
      continue;
    }
    SelectivePart part{id, thickness->value_m, component->thickness_options_m};
    part.sort = component->line == id ? "" : component->line;
    part.label = workshop.label(id);
    if (!shelf.empty()) {
      auto rows = shelf.find(component->line);
      rows = rows == shelf.end() ? shelf.find(id) : rows;
      part.on_shelf.assign(part.options_m.size(), 0);
      part.prices.assign(part.options_m.size(), 0);
      for (std::size_t i = 0; rows != shelf.end() && i < part.options_m.size(); ++i) {
        for (const ShelfRow& row : rows->second) {
          if (std::abs(row.thickness_m - part.options_m[i]) < 1e-6) {
            part.on_shelf[i] += row.count;
            part.prices[i] = row.price;
          }
        }
      }
    }
    question.parts.push_back(std::move(part));
  }
  return question;
}

std::optional<PackReports> pack_reports(Workshop& workshop, const Pack& pack,
                                        const BuildState& state, const PackAsk& ask) {
  const auto report = pack_now(workshop, pack, state);
  auto stand = stand_now(workshop, pack, state);
  if (!report || !stand) {
    return std::nullopt;
  }
  PackReports reports;
  reports.pack = pack.id;
  stand->residual_m = ask.residual_m;
  stand->bar_m = ask.bar_m;
  reports.ways = ways_report(*stand);
  for (const WayReading& reading : ask.readings) {
    reports.readings.push_back(explain_reading(*stand, reading));
  }
  if (ask.readings.size() > 1) {
    reports.readings.push_back(compare_readings(*stand, ask.readings));
  }
  reports.uncertainty = uncertainty_of(workshop, pack, *report, ask.seed);
  reports.frictions = frictions_of(workshop, pack, *report);
  reports.springs = springs_of(workshop, pack);
  const auto chain = warm_chain_now(workshop, pack, state);
  if (ask.warm_K && chain) {
    reports.warm = warm_report(*chain, *ask.warm_K);
  }
  reports.choice = choose_parts(choice_question(workshop, pack, *report, ask.shelf));
  return reports;
}

} // namespace lugline
