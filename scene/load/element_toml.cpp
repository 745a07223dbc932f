#include "scene/load/drive_figures.h"

#include <array>

namespace lugline {

namespace {

constexpr std::array kind_names{std::pair{ElementKind::clutch, "a clutch"},
                                std::pair{ElementKind::band, "a band"},
                                std::pair{ElementKind::one_way_clutch, "a one-way clutch"}};

/// Which keys are for which kinds; a key that stands in no row is for all.
struct KeyUse {
  const char* key;
  bool clutch;
  bool band;
  bool one_way;
};
constexpr std::array key_uses{
    KeyUse{"pack", true, false, false},          KeyUse{"surfaces", true, false, false},
    KeyUse{"lining", true, false, false},        KeyUse{"most_stroke", true, false, false},
    KeyUse{"fluid_surface", true, false, false}, KeyUse{"springs", true, true, false},
    KeyUse{"spring_force", true, true, false},   KeyUse{"friction", true, true, false},
    KeyUse{"piston", true, true, false},         KeyUse{"air_volume", true, true, false},
    KeyUse{"good_hold", true, true, false},      KeyUse{"drum", false, true, false},
    KeyUse{"wrap", false, true, false},          KeyUse{"lever", false, true, false},
    KeyUse{"tightens", false, true, false},      KeyUse{"stroke", false, true, false},
    KeyUse{"free", false, false, true},          KeyUse{"rated_torque", false, false, true},
};

bool is_for(const KeyUse& use, ElementKind kind) {
  switch (kind) {
  case ElementKind::clutch:
    return use.clutch;
  case ElementKind::band:
    return use.band;
  case ElementKind::one_way_clutch:
    return use.one_way;
  }
  return false;
}

const char* name_of(ElementKind kind) {
  for (const auto& [known, name] : kind_names) {
    if (known == kind) {
      return name;
    }
  }
  return "";
}

struct Diameters {
  double outer_m = 0;
  double inner_m = 0;
};

/// Two diameters, the inner one smaller; a ring where a bore is a must.
std::optional<Diameters> read_diameters(TableReader& of, const std::string& key, bool with_bore) {
  std::optional<TableReader> table = of.table(key, of.what() + ": " + key);
  if (!table) {
    return std::nullopt;
  }
  const auto outer_m = required_within(*table, "outer", diameter_bounds);
  const auto inner_m = with_bore ? required_within(*table, "inner", diameter_bounds)
                                 : figure_within(*table, "inner", bore_bounds);
  table->finish();
  if (!outer_m || (table->has("inner") && !inner_m)) {
    return std::nullopt;
  }
  if (inner_m && *inner_m >= *outer_m) {
    table->complain("inner", "the inner diameter is not smaller than the outer one");
    return std::nullopt;
  }
  return Diameters{*outer_m, inner_m.value_or(0)};
}

std::optional<ReturnSprings> read_springs(TableReader& of) {
  std::optional<TableReader> table = of.table("springs", of.what() + ": springs");
  if (!table) {
    return std::nullopt;
  }
  if (!table->has("count")) {
    table->complain("count", "count is missing: how many springs?");
  }
  const auto count = table->whole("count", 1, 400);
  const auto rate = required_within(*table, "rate", rate_bounds);
  const auto free_m = required_within(*table, "free", travel_bounds);
  const auto fitted_m = required_within(*table, "fitted", travel_bounds);
  const auto solid_m = figure_within(*table, "solid", travel_bounds);
  table->finish();
  if (!count || !rate || !free_m || !fitted_m) {
    return std::nullopt;
  }
  if (*fitted_m > *free_m) {
    table->complain("fitted", "fitted is longer than free: such springs would push nothing");
    return std::nullopt;
  }
  if (solid_m && *solid_m > *fitted_m) {
    table->complain("solid", "solid is longer than fitted: such springs would not go in");
    return std::nullopt;
  }
  return ReturnSprings{count->value, *rate, *free_m, *fitted_m, solid_m.value_or(0)};
}

void read_apply(TableReader& table, DriveElement& element) {
  const bool servo = element.kind == ElementKind::band;
  if (const auto piston = read_diameters(table, "piston", false)) {
    element.piston = ApplyPiston{piston->outer_m, piston->inner_m};
  }
  element.springs = read_springs(table);
  element.spring_force_N = figure_within(table, "spring_force", force_bounds).value_or(0);
  if (table.has("springs") && table.has("spring_force")) {
    table.complain("spring_force", "there are springs and a spring_force: which of them?",
                   "springs where their figures are known, else their force when applied");
  }
  if (const auto friction = table.number("friction", 0.01, 1)) {
    element.friction = friction->value;
  }
  element.most_stroke_m = figure_within(table, "most_stroke", travel_bounds).value_or(0);
  if (!servo && element.springs && element.springs->solid_m > 0 &&
      element.most_stroke_m > element.springs->fitted_m - element.springs->solid_m + 1e-9) {
    table.complain("most_stroke",
                   "its springs are solid after " +
                       print_length(element.springs->fitted_m - element.springs->solid_m,
                                    LengthUnit::millimetre) +
                       ", before the piston has made that stroke");
  }
  element.air_volume_m3 = figure_within(table, "air_volume", volume_bounds).value_or(0);
  element.good_hold_s = figure_within(table, "good_hold", hold_bounds).value_or(0);
}

void read_clutch(TableReader& table, DriveElement& element) {
  element.pack = table.text_or("pack", "");
  if (const auto surfaces = table.whole("surfaces", 1, 100)) {
    element.surfaces = surfaces->value;
  }
  if (const auto lining = read_diameters(table, "lining", true)) {
    element.lining_outer_m = lining->outer_m;
    element.lining_inner_m = lining->inner_m;
  }
  element.fluid_centre_m = figure_within(table, "fluid_surface", diameter_bounds).value_or(0);
  if (element.piston && element.fluid_centre_m >= element.piston->outer_m) {
    table.complain("fluid_surface", "the fluid's surface is not inside the piston's outer diameter",
                   "the diameter of the free surface that the fluid has when it is flung outward");
  }
}

void read_band(TableReader& table, DriveElement& element, bool required) {
  element.drum_m = figure_within(table, "drum", diameter_bounds).value_or(0);
  element.wrap_rad = figure_within(table, "wrap", wrap_bounds).value_or(0);
  if (const auto lever = table.number("lever", 0.1, 20)) {
    element.lever = lever->value;
  }
  element.stroke_m = figure_within(table, "stroke", travel_bounds).value_or(0);
  if (required || table.has("tightens")) {
    element.tightens_clockwise =
        is_clockwise(table, "tightens", "which way does the drum draw it tighter?").value_or(false);
  } else {
    table.text("tightens");
  }
}

void read_one_way(TableReader& table, DriveElement& element, bool required) {
  if (required || table.has("free")) {
    element.free_clockwise =
        is_clockwise(table, "free", "which way does its first member run free?").value_or(false);
  } else {
    table.text("free");
  }
  element.rated_Nm = figure_within(table, "rated_torque", torque_bounds);
}

void judge_use(TableReader& table, ElementKind kind) {
  for (const KeyUse& use : key_uses) {
    if (table.has(use.key) && !is_for(use, kind)) {
      table.complain(use.key, std::string(use.key) + " is of no use to " + name_of(kind));
    }
  }
}

} // namespace

void read_element(TableReader& table, UnitDraft& draft) {
  DriveElement element;
  if (const auto id = table.id("id")) {
    element.id = id->value;
    table.call_it("element " + in_quotes(element.id));
  }
  element.name = table.text_or("name", element.id);
  if (!table.has("kind")) {
    table.complain("kind", "kind is missing: what holds?",
                   "one of: " + listed(element_kind_words()));
  }
  const auto kind = table.word<ElementKind>("kind", element_kind_from, element_kind_words);
  element.kind = kind.value_or(ElementKind::clutch);
  element.of = table.text_or("of", "");
  element.to = table.text_or("to", kind == ElementKind::band ? case_member : "");
  for (const WrittenText& piece : read_pieces(table, "parts", draft)) {
    element.parts.push_back(piece.value);
  }
  read_apply(table, element);
  read_clutch(table, element);
  read_band(table, element, kind == ElementKind::band);
  read_one_way(table, element, kind == ElementKind::one_way_clutch);
  table.finish();
  if (kind) {
    judge_use(table, *kind);
  }
  element.source = table.at();
  draft.drive->elements.push_back({std::move(element), table.places(), table.what()});
}

} // namespace lugline
