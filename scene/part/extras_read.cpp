// Extras as they come from strangers, turned into a Component or into the words
// that say what is wrong with them.
#include "scene/part/extras_object.h"
#include "scene/quantity/complaint.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

using nlohmann::json;
using namespace extras_reading;

constexpr double turn_rad = 2 * std::numbers::pi;
constexpr ExtrasLimits limits = extras_limits;

/// Flanks that were rounded to the file's grid may cross by this much and still count as touching.
constexpr double touching_rad = 1e-9;

/// Counts rings and sectors over a whole component, band states included.
struct Tally {
  int rings = 0;
  int sectors = 0;

  void add_ring(const std::string& path) {
    if (++rings > limits.rings) {
      refuse(path, "more than " + std::to_string(limits.rings) + " rings in one component");
    }
  }
  void add_sectors(std::size_t count, const std::string& path) {
    if (count > static_cast<std::size_t>(limits.sectors_of_ring)) {
      refuse(path, std::to_string(count) + " sectors in one ring, at most " +
                       std::to_string(limits.sectors_of_ring) + " are read");
    }
    sectors += static_cast<int>(count);
    if (sectors > limits.sectors) {
      refuse(path, "more than " + std::to_string(limits.sectors) + " sectors in one component");
    }
  }
};

std::vector<Sector> repeated_sectors(const json& value, const std::string& path, Tally& tally) {
  const ExtrasObject object(value, path, {"count", "first_deg", "span_deg", "from_mm", "to_mm"});
  const int count = object.whole("count", 1, limits.sectors_of_ring);
  tally.add_sectors(static_cast<std::size_t>(count), path);
  const double first_rad = object.angle_rad("first_deg");
  const double span_rad = object.angle_rad_or_0("span_deg");
  const double from_m = object.length_m_or_0("from_mm");
  const double to_m = object.length_m_or_0("to_mm");
  std::vector<Sector> sectors;
  sectors.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    const double at_rad = first_rad + turn_rad * i / count;
    sectors.push_back({{at_rad, from_m}, {at_rad + span_rad, to_m}});
  }
  return sectors;
}

std::vector<Sector> listed_sectors(const json& list, const std::string& path, Tally& tally) {
  if (list.empty()) {
    refuse(path, "an empty list; leave \"sectors\" out where the ring goes all round");
  }
  tally.add_sectors(list.size(), path);
  std::vector<Sector> sectors;
  sectors.reserve(list.size());
  for (std::size_t i = 0; i < list.size(); ++i) {
    const ExtrasObject one(list[i], path + "[" + std::to_string(i) + "]",
                           {"from_deg", "from_mm", "to_deg", "to_mm"});
    sectors.push_back({{one.angle_rad("from_deg"), one.length_m_or_0("from_mm")},
                       {one.angle_rad("to_deg"), one.length_m_or_0("to_mm")}});
  }
  return sectors;
}

/// A flank's angle differs from its neighbour's by a function of the radius that
/// only rises or only falls, so the two ends of the ring's radii decide for all between.
void refuse_disorder(const std::vector<Sector>& sectors, double r_m, const char* where,
                     const std::string& path) {
  const auto at = [&](const Flank& flank, std::size_t i) {
    if (std::abs(flank.offset_m) > r_m) {
      refuse(path + "[" + std::to_string(i) + "]",
             "a flank " + shown_figure(std::abs(flank.offset_m) * 1e3) +
                 " mm off its centre line never reaches the " + where + " radius of " +
                 shown_figure(r_m * 1e3) + " mm");
    }
    return flank.offset_m == 0 ? flank.angle_rad : flank.at(r_m);
  };
  for (std::size_t i = 0; i < sectors.size(); ++i) {
    const double from_rad = at(sectors[i].from, i);
    const double to_rad = at(sectors[i].to, i);
    const std::string here = path + "[" + std::to_string(i) + "]";
    if (!(to_rad > from_rad)) {
      refuse(here, std::string("at the ") + where + " radius the sector ends before it begins");
    }
    if (!(to_rad - from_rad < turn_rad)) {
      refuse(here, std::string("at the ") + where + " radius the sector is a full turn or more");
    }
    const bool last = i + 1 == sectors.size();
    const Flank& next = sectors[last ? 0 : i + 1].from;
    const double next_rad = at(next, last ? 0 : i + 1) + (last ? turn_rad : 0);
    if (to_rad > next_rad + touching_rad) {
      refuse(here, std::string("at the ") + where + " radius it runs into the " +
                       (last ? "first sector, a turn on" : "next sector") +
                       "; sectors stand apart, by rising angle");
    }
  }
}

SectorRing ring_from(const json& value, const std::string& path, Tally& tally) {
  const ExtrasObject object(
      value, path, {"inner_mm", "outer_mm", "low_mm", "high_mm", "feature", "material", "sectors"});
  SectorRing ring;
  ring.inner_m = object.not_negative_m("inner_mm");
  ring.outer_m = object.length_m("outer_mm");
  object.refuse_unless_below("inner_mm", "outer_mm", false);
  ring.low_m = object.length_m("low_mm");
  ring.high_m = object.length_m("high_mm");
  object.refuse_unless_below("low_mm", "high_mm", false);
  ring.feature = object.text_or_none("feature");
  ring.material = object.text_or_none("material");
  if (object.has("sectors")) {
    const json& sectors = object.member("sectors");
    const std::string at = object.at("sectors");
    if (sectors.is_object()) {
      ring.sectors = repeated_sectors(sectors, at, tally);
    } else if (sectors.is_array()) {
      ring.sectors = listed_sectors(sectors, at, tally);
    } else {
      refuse(at, "a list of sectors, or one repeated sector, was expected, read " + shown(sectors));
    }
    refuse_disorder(ring.sectors, ring.inner_m, "inner", at);
    refuse_disorder(ring.sectors, ring.outer_m, "outer", at);
  }
  return ring;
}

Solid solid_from(const json& value, const std::string& path, Tally& tally) {
  const ExtrasObject object(value, path, {"rings"});
  const json& list = object.member("rings");
  if (!list.is_array()) {
    refuse(object.at("rings"), "a list was expected, read " + shown(list));
  }
  Solid solid;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const std::string at = object.at("rings") + "[" + std::to_string(i) + "]";
    tally.add_ring(at);
    solid.rings.push_back(ring_from(list[i], at, tally));
  }
  return solid;
}

template <class Entry>
void refuse_double(const std::vector<Entry>& entries, std::string Entry::*id,
                   const std::string& path) {
  for (std::size_t i = 0; i + 1 < entries.size(); ++i) {
    if (entries[i].*id == entries.back().*id) {
      refuse(path, "the name " + shown(json(entries.back().*id)) + " stands twice");
    }
  }
}

void read_wave(Component& component, const ExtrasObject& top) {
  const ExtrasObject object(top.member("wave"), top.at("wave"), {"free_mm", "flat_mm", "waves"});
  component.wave = WaveFigures{object.size_m("free_mm"), object.size_m("flat_mm"),
                               object.whole("waves", 0, limits.entries)};
  object.refuse_unless_below("flat_mm", "free_mm", true);
}

void read_springs(Component& component, const ExtrasObject& top) {
  const ExtrasObject object(top.member("springs"), top.at("springs"),
                            {"free_mm", "solid_mm", "rate_N_per_mm"});
  component.springs = SpringFigures{object.size_m("free_mm"), object.size_m("solid_mm"),
                                    object.number("rate_N_per_mm") * 1e3};
  object.refuse_unless_below("solid_mm", "free_mm", true);
  if (!(component.springs->rate_N_per_m > 0) || !std::isfinite(component.springs->rate_N_per_m)) {
    refuse(object.at("rate_N_per_mm"),
           "read " + shown(object.member("rate_N_per_mm")) + ", expected more than 0 N/mm");
  }
}

void read_ring(Component& component, const ExtrasObject& top) {
  const ExtrasObject object(top.member("ring"), top.at("ring"),
                            {"in_bore", "free_mm", "squeezed_mm", "thickness_mm", "width_mm",
                             "gap_deg", "bevelled", "reversed_play_mm", "free_height_mm"});
  RingFigures ring;
  ring.in_bore = object.truth("in_bore");
  ring.free_m = object.size_m("free_mm");
  ring.squeezed_m = object.size_m("squeezed_mm");
  ring.thickness_m = object.size_m("thickness_mm");
  ring.width_m = object.size_m("width_mm");
  ring.gap_rad = object.angle_rad("gap_deg");
  ring.bevelled = object.truth("bevelled");
  ring.reversed_play_m = object.not_negative_m("reversed_play_mm");
  if (ring.gap_rad < 0 || ring.gap_rad >= turn_rad) {
    refuse(object.at("gap_deg"),
           "read " + shown(object.member("gap_deg")) + ", expected from 0 to below 360 deg");
  }
  object.refuse_unless_below(ring.in_bore ? "squeezed_mm" : "free_mm",
                             ring.in_bore ? "free_mm" : "squeezed_mm", true);
  if (object.has("free_height_mm")) {
    ring.free_height_m = object.size_m("free_height_mm");
    object.refuse_unless_below("thickness_mm", "free_height_mm", true);
    if (ring.bevelled) {
      refuse(object.at("free_height_mm"), "a ring is bevelled or waved, not both");
    }
  }
  component.ring = ring;
}

void read_figure(Component& component, const json& value, const std::string& path) {
  const ExtrasObject object(value, path, {"name", "value_mm", "zone_low_mm", "zone_high_mm"});
  component.figures.push_back({object.id("name"), object.length_m("value_mm"),
                               object.length_m("zone_low_mm"), object.length_m("zone_high_mm")});
  object.refuse_unless_below("zone_low_mm", "zone_high_mm", true);
  refuse_double(component.figures, &Figure::name, path);
}

void read_groove(Component& component, const json& value, const std::string& path) {
  const ExtrasObject object(
      value, path, {"id", "in_bore", "low_mm", "high_mm", "bottom_mm", "land_mm", "loads_up"});
  Groove groove;
  groove.id = object.id("id");
  groove.in_bore = object.truth("in_bore");
  groove.low_m = object.length_m("low_mm");
  groove.high_m = object.length_m("high_mm");
  groove.bottom_m = object.size_m("bottom_mm");
  groove.land_m = object.size_m("land_mm");
  groove.loads_up = object.truth("loads_up");
  object.refuse_unless_below("low_mm", "high_mm", false);
  // A bore's groove is cut outward of its land, a shaft's inward.
  object.refuse_unless_below(groove.in_bore ? "land_mm" : "bottom_mm",
                             groove.in_bore ? "bottom_mm" : "land_mm", false);
  component.grooves.push_back(std::move(groove));
  refuse_double(component.grooves, &Groove::id, path);
}

void read_key(Component& component, const json& value, const std::string& path) {
  const ExtrasObject object(
      value, path,
      {"id", "fits", "angle_deg", "inner_mm", "outer_mm", "low_mm", "high_mm", "width_mm"});
  Key key;
  key.id = object.id("id");
  key.fits = object.text_or_none("fits");
  key.angle_rad = object.angle_rad("angle_deg");
  key.inner_m = object.not_negative_m("inner_mm");
  key.outer_m = object.length_m("outer_mm");
  key.low_m = object.length_m("low_mm");
  key.high_m = object.length_m("high_mm");
  key.width_m = object.size_m("width_mm");
  object.refuse_unless_below("inner_mm", "outer_mm", false);
  object.refuse_unless_below("low_mm", "high_mm", false);
  component.keys.push_back(std::move(key));
  refuse_double(component.keys, &Key::id, path);
}

void read_mark(Component& component, const json& value, const std::string& path) {
  const ExtrasObject object(value, path, {"words", "radius_mm", "angle_deg", "height_mm"});
  component.marks.push_back({object.text("words"), object.not_negative_m("radius_mm"),
                             object.angle_rad("angle_deg"), object.length_m("height_mm")});
}

void read_band_state(Component& component, const json& value, const std::string& path,
                     Tally& tally) {
  const ExtrasObject object(value, path, {"id", "solid"});
  component.band_states.push_back(
      {object.id("id"), solid_from(object.member("solid"), object.at("solid"), tally)});
  refuse_double(component.band_states, &BandState::id, path);
}

ComponentKind kind_of(const ExtrasObject& object) {
  const std::string word = object.text("kind");
  const std::optional<ComponentKind> kind = kind_from(word);
  if (!kind) {
    const std::string near = nearest_name(word, kind_words());
    refuse(object.at("kind"), "unknown kind " + shown(json(word)) +
                                  (near.empty() ? "" : " (did you mean \"" + near + "\"?)"));
  }
  return *kind;
}

/// Before anything else: another schema's members mean nothing to us.
void refuse_other_schema(const json& extras) {
  if (!extras.is_object()) {
    refuse("lugline", "an object was expected, read " + shown(extras));
  }
  if (!extras.contains("schema")) {
    refuse("lugline", "\"schema\" is missing; schema 1 is understood");
  }
  if (extras["schema"] != json(1) || !extras["schema"].is_number_integer()) {
    refuse("lugline.schema", "read " + shown(extras["schema"]) + ", only schema 1 is understood");
  }
}

Component read_component(const json& extras) {
  refuse_other_schema(extras);
  const ExtrasObject object(extras, "lugline",
                            {"schema", "id", "name", "kind", "material", "mass_kg", "solid",
                             "figures", "wave", "springs", "ring", "grooves", "keys", "marks",
                             "band_states"});
  Component component;
  Tally tally;
  component.id = object.id("id");
  component.name = object.text("name");
  component.kind = kind_of(object);
  component.material = object.text("material");
  component.mass_kg = object.number("mass_kg");
  if (component.mass_kg < 0) {
    refuse(object.at("mass_kg"),
           "read " + shown(object.member("mass_kg")) + ", expected no less than 0 kg");
  }
  component.solid = solid_from(object.member("solid"), object.at("solid"), tally);
  if (object.has("wave")) {
    read_wave(component, object);
  }
  if (object.has("springs")) {
    read_springs(component, object);
  }
  if (object.has("ring")) {
    read_ring(component, object);
  }
  object.each("figures", [&](const json& value, const std::string& path) {
    read_figure(component, value, path);
  });
  object.each("grooves", [&](const json& value, const std::string& path) {
    read_groove(component, value, path);
  });
  object.each("keys", [&](const json& value, const std::string& path) {
    read_key(component, value, path);
  });
  object.each("marks", [&](const json& value, const std::string& path) {
    read_mark(component, value, path);
  });
  object.each("band_states", [&](const json& value, const std::string& path) {
    read_band_state(component, value, path, tally);
  });
  return component;
}

} // namespace

Outcome<Component> component_from_extras(const json& extras) {
  try {
    return read_component(extras);
  } catch (const Refused& refused) {
    return Problem{refused.what};
  }
}

Outcome<std::optional<Component>> component_from_extras_text(const std::string& extras_json) {
  if (extras_json.empty()) {
    return std::optional<Component>();
  }
  const json whole = json::parse(extras_json, nullptr, false);
  if (whole.is_discarded()) {
    return Problem{"extras: not JSON"};
  }
  if (!whole.is_object() || !whole.contains("lugline")) {
    return std::optional<Component>();
  }
  Outcome<Component> component = component_from_extras(whole["lugline"]);
  if (!component) {
    return Problem{component.problem()};
  }
  return std::optional<Component>(std::move(component).value());
}

} // namespace lugline
