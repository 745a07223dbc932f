#include "scene/part/extras.h"

#include <nlohmann/json.hpp>

#include <cassert>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

using nlohmann::json;

/// Sectors may stray from an even spacing by this much and still be written as
/// one repeated sector: well inside what the file promises to keep.
constexpr double even_within_deg = 2e-11;
constexpr double even_within_mm = 2e-10;

/// Rounded to a grid far below anything that can be measured, where the grid is
/// still finer than a double: 1.98 in place of 1.9799999999999998.
double tidy(double value, double per_unit) {
  const double scaled = value * per_unit;
  if (std::abs(scaled) > 1e15) {
    return value;
  }
  return std::round(scaled) / per_unit + 0.0; // + 0.0: no "-0.0"
}

double mm(double length_m) {
  assert(std::isfinite(length_m));
  return tidy(length_m * 1e3, 1e10);
}

double deg(double angle_rad) {
  assert(std::isfinite(angle_rad));
  return tidy(angle_rad * (180 / std::numbers::pi), 1e11);
}

void put_text(json& object, const char* name, const std::string& text) {
  if (!text.empty()) {
    object[name] = text;
  }
}

void put_offset(json& object, const char* name, double offset_m) {
  if (offset_m != 0) {
    object[name] = mm(offset_m);
  }
}

/// Whether every sector is the first one, turned by an equal share of the circle.
/// Judged by the figures as they are written, so that a file that is read and
/// written again comes out the same.
bool evenly_repeated(const std::vector<Sector>& sectors) {
  const Sector& first = sectors.front();
  const auto follows = [](const Flank& flank, const Flank& lead, double turned_deg) {
    return std::abs(deg(flank.angle_rad) - deg(lead.angle_rad) - turned_deg) <= even_within_deg &&
           std::abs(mm(flank.offset_m) - mm(lead.offset_m)) <= even_within_mm;
  };
  const auto count = static_cast<double>(sectors.size());
  for (std::size_t i = 1; i < sectors.size(); ++i) {
    const double turned_deg = 360 * static_cast<double>(i) / count;
    if (!follows(sectors[i].from, first.from, turned_deg) ||
        !follows(sectors[i].to, first.to, turned_deg)) {
      return false;
    }
  }
  return sectors.size() > 1;
}

json sectors_of(const std::vector<Sector>& sectors) {
  if (evenly_repeated(sectors)) {
    const Sector& first = sectors.front();
    json repeat = {{"count", sectors.size()}, {"first_deg", deg(first.from.angle_rad)}};
    const double span_deg = deg(first.to.angle_rad - first.from.angle_rad);
    if (span_deg != 0) {
      repeat["span_deg"] = span_deg;
    }
    put_offset(repeat, "from_mm", first.from.offset_m);
    put_offset(repeat, "to_mm", first.to.offset_m);
    return repeat;
  }
  json list = json::array();
  for (const Sector& sector : sectors) {
    json one = {{"from_deg", deg(sector.from.angle_rad)}, {"to_deg", deg(sector.to.angle_rad)}};
    put_offset(one, "from_mm", sector.from.offset_m);
    put_offset(one, "to_mm", sector.to.offset_m);
    list.push_back(std::move(one));
  }
  return list;
}

json solid_of(const Solid& solid) {
  json rings = json::array();
  for (const SectorRing& ring : solid.rings) {
    json one = {{"inner_mm", mm(ring.inner_m)},
                {"outer_mm", mm(ring.outer_m)},
                {"low_mm", mm(ring.low_m)},
                {"high_mm", mm(ring.high_m)}};
    put_text(one, "feature", ring.feature);
    put_text(one, "material", ring.material);
    if (!ring.full()) {
      one["sectors"] = sectors_of(ring.sectors);
    }
    rings.push_back(std::move(one));
  }
  return {{"rings", std::move(rings)}};
}

void put_figures(json& object, const Component& component) {
  for (const Figure& figure : component.figures) {
    object["figures"].push_back({{"name", figure.name},
                                 {"value_mm", mm(figure.value_m)},
                                 {"zone_low_mm", mm(figure.zone_low_m)},
                                 {"zone_high_mm", mm(figure.zone_high_m)}});
  }
  if (component.wave) {
    object["wave"] = {{"free_mm", mm(component.wave->free_m)},
                      {"flat_mm", mm(component.wave->flat_m)},
                      {"waves", component.wave->waves}};
  }
  if (component.springs) {
    object["springs"] = {{"free_mm", mm(component.springs->free_m)},
                         {"solid_mm", mm(component.springs->solid_m)},
                         {"rate_N_per_mm", tidy(component.springs->rate_N_per_m / 1e3, 1e9)}};
  }
  if (component.ring) {
    const RingFigures& ring = *component.ring;
    object["ring"] = {{"in_bore", ring.in_bore},
                      {"free_mm", mm(ring.free_m)},
                      {"squeezed_mm", mm(ring.squeezed_m)},
                      {"thickness_mm", mm(ring.thickness_m)},
                      {"width_mm", mm(ring.width_m)},
                      {"gap_deg", deg(ring.gap_rad)},
                      {"bevelled", ring.bevelled},
                      {"reversed_play_mm", mm(ring.reversed_play_m)}};
    if (ring.waved()) {
      object["ring"]["free_height_mm"] = mm(ring.free_height_m);
    }
  }
}

void put_places(json& object, const Component& component) {
  for (const Groove& groove : component.grooves) {
    object["grooves"].push_back({{"id", groove.id},
                                 {"in_bore", groove.in_bore},
                                 {"low_mm", mm(groove.low_m)},
                                 {"high_mm", mm(groove.high_m)},
                                 {"bottom_mm", mm(groove.bottom_m)},
                                 {"land_mm", mm(groove.land_m)},
                                 {"loads_up", groove.loads_up}});
  }
  for (const Key& key : component.keys) {
    json one = {{"id", key.id},
                {"angle_deg", deg(key.angle_rad)},
                {"inner_mm", mm(key.inner_m)},
                {"outer_mm", mm(key.outer_m)},
                {"low_mm", mm(key.low_m)},
                {"high_mm", mm(key.high_m)},
                {"width_mm", mm(key.width_m)}};
    put_text(one, "fits", key.fits);
    object["keys"].push_back(std::move(one));
  }
  for (const Mark& mark : component.marks) {
    object["marks"].push_back({{"words", mark.words},
                               {"radius_mm", mm(mark.radius_m)},
                               {"angle_deg", deg(mark.angle_rad)},
                               {"height_mm", mm(mark.height_m)}});
  }
  for (const BandState& state : component.band_states) {
    object["band_states"].push_back({{"id", state.id}, {"solid", solid_of(state.solid)}});
  }
}

} // namespace

json extras_of(const Component& component) {
  json object = {{"schema", 1},
                 {"id", component.id},
                 {"name", component.name},
                 {"kind", word_for(component.kind)},
                 {"material", component.material},
                 {"mass_kg", component.mass_kg},
                 {"solid", solid_of(component.solid)}};
  put_figures(object, component);
  put_places(object, component);
  return object;
}

std::string extras_text_of(const Component& component) {
  // Ids and names reach here checked for UTF-8; a stray byte is replaced rather than thrown over.
  return json{{"lugline", extras_of(component)}}.dump(-1, ' ', false,
                                                      json::error_handler_t::replace);
}

} // namespace lugline
