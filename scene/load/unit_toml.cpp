#include "scene/load/draft.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr std::size_t most_lines = 500;
constexpr std::size_t most_packs = 100;
constexpr std::size_t most_rings = 64;
constexpr int most_pieces = 99;
constexpr double turn_rad = 2 * std::numbers::pi;

std::optional<double> required_length(TableReader& table, const std::string& key) {
  if (!table.has(key)) {
    table.complain(key, key + " is missing");
  }
  const auto written = table.quantity(key, Dimension::length);
  return written ? std::optional<double>(written->value) : std::nullopt;
}

/// A ring cut into lugs with parallel flanks.
void read_lugs(TableReader table, SectorRing& ring) {
  if (!table.has("count")) {
    table.complain("count", "count is missing");
  }
  const auto count = table.whole("count", 1, 400);
  const auto width_m = required_length(table, "width");
  const auto first = table.quantity("first", Dimension::angle);
  table.finish();
  if (!count || !width_m) {
    return;
  }
  if (*width_m <= 0 || *width_m >= 2 * ring.inner_m) {
    table.complain("width", "a lug of that width does not fit on its inner diameter");
    return;
  }
  if (2 * std::asin(*width_m / 2 / ring.inner_m) * count->value >= turn_rad) {
    table.complain("width", "lugs of that width meet one another on the inner diameter");
    return;
  }
  ring.sectors = repeated(parallel_sector(first ? first->value : 0, *width_m), count->value);
}

std::optional<SectorRing> read_ring(TableReader& table) {
  SectorRing ring;
  ring.feature = table.text_or("feature", "");
  const auto inner_m = required_length(table, "inner_diameter");
  const auto outer_m = required_length(table, "outer_diameter");
  const auto low_m = required_length(table, "low");
  const auto high_m = required_length(table, "high");
  std::optional<TableReader> lugs = table.table("lugs", table.what() + " lugs");
  table.finish();
  if (!inner_m || !outer_m || !low_m || !high_m) {
    return std::nullopt;
  }
  if (*inner_m < 0 || *outer_m <= *inner_m) {
    table.complain("outer_diameter", "the outer diameter is not larger than the inner one");
    return std::nullopt;
  }
  if (*high_m <= *low_m) {
    table.complain("high", "high is not above low");
    return std::nullopt;
  }
  ring.inner_m = *inner_m / 2;
  ring.outer_m = *outer_m / 2;
  ring.low_m = *low_m;
  ring.high_m = *high_m;
  if (lugs) {
    read_lugs(*lugs, ring);
  }
  return ring;
}

std::optional<Figure> read_figure(TableReader& table) {
  const auto name = table.required_text("name");
  const auto low_m = required_length(table, "low");
  const auto high_m = required_length(table, "high");
  table.finish();
  if (!name || !low_m || !high_m) {
    return std::nullopt;
  }
  if (*high_m <= *low_m) {
    table.complain("high", "high is not above low");
    return std::nullopt;
  }
  return Figure{name->value, *high_m - *low_m, *low_m, *high_m};
}

/// Whether solid of both stands at one place. The flanks are parallel, so
/// lugs are nearest to one another at the smallest radius they share.
bool overlap(const SectorRing& a, const SectorRing& b) {
  constexpr double touch_m = 1e-9;
  const double inner_m = std::max(a.inner_m, b.inner_m);
  if (inner_m > std::min(a.outer_m, b.outer_m) - touch_m ||
      std::max(a.low_m, b.low_m) > std::min(a.high_m, b.high_m) - touch_m) {
    return false;
  }
  if (a.full() || b.full()) {
    return true;
  }
  for (const Sector& s : a.sectors) {
    for (const Sector& t : b.sectors) {
      const double half_s = (s.to.at(inner_m) - s.from.at(inner_m)) / 2;
      const double half_t = (t.to.at(inner_m) - t.from.at(inner_m)) / 2;
      const double apart = (s.to.at(inner_m) - half_s) - (t.to.at(inner_m) - half_t);
      if (std::abs(std::remainder(apart, turn_rad)) < half_s + half_t - 1e-9) {
        return true;
      }
    }
  }
  return false;
}

void read_rings(TableReader& table, ComponentLine& line) {
  std::vector<TableReader> rings = table.tables("ring", table.what() + " ring");
  if (rings.size() > most_rings) {
    table.complain("ring", "more than " + std::to_string(most_rings) + " rings");
    return;
  }
  for (TableReader& ring : rings) {
    const std::optional<SectorRing> read = read_ring(ring);
    if (!read) {
      continue;
    }
    if (std::ranges::any_of(line.rings, [&](const SectorRing& r) { return overlap(r, *read); })) {
      ring.complain("inner_diameter", "it overlaps a ring above it",
                    "rings of one part may touch, and no more");
      continue;
    }
    line.rings.push_back(*read);
  }
  for (TableReader& figure : table.tables("figure", table.what() + " figure")) {
    if (const std::optional<Figure> read = read_figure(figure)) {
      line.figures.push_back(*read);
    }
  }
}

void read_component(TableReader& table, UnitDraft& draft) {
  const auto id = table.id("id");
  if (id) {
    table.call_it("component " + in_quotes(id->value));
  }
  ComponentLine line;
  line.name = table.text_or("name", "");
  line.label = table.text_or("label", "");
  line.file = table.text_or("file", "");
  line.node = table.text_or("node", "");
  if (const auto count = table.whole("count", 1, most_pieces)) {
    line.count = count->value;
  } else if (table.has("count")) {
    // Refused above: every piece that could be meant is known, so that each
    // mention of one is not a complaint as well.
    line.count = most_pieces;
  }
  line.kind = table.word<ComponentKind>("kind", kind_from, kind_words);
  line.material = table.text_or("material", "");
  if (const auto thickness = table.quantity("thickness", Dimension::length)) {
    line.thickness_m = thickness->value;
  }
  line.options_m = table.quantities("options", Dimension::length);
  read_rings(table, line);
  table.finish();
  if (line.file.empty() && !table.has("ring")) {
    table.complain("file", "there is neither a file nor a ring: what does it look like?",
                   "file = \"parts/….glb\"");
  }
  if (!line.file.empty() && table.has("ring")) {
    table.complain("ring",
                   "rings are for a part with no file, and this one has " + in_quotes(line.file));
  }
  if (id) {
    line.id = id->value;
    line.at = table.places();
    draft.lines.push_back(std::move(line));
  }
}

/// "COMPONENT/GROOVE" in its two halves; the reference is judged later.
void read_pack_groove(TableReader& table, Pack& pack, std::vector<Reference>& references) {
  const std::string groove = referred(table, "groove", Names::groove, references);
  if (groove.empty()) {
    table.complain("groove", "groove is missing: where does its ring sit?", "\"COMPONENT/GROOVE\"");
    return;
  }
  const std::size_t slash = groove.find('/');
  pack.ring_host = groove.substr(0, slash);
  pack.ring_groove = slash == std::string::npos ? "" : groove.substr(slash + 1);
}

/// What the unit states of the pack's frictions; all of it may be left out.
void read_frictions(TableReader& table, Pack& pack) {
  if (table.has("each_friction")) {
    pack.each_friction = table.limits("each_friction");
  }
  if (const auto least = table.quantity("friction_least", Dimension::length)) {
    pack.friction_least_m = least->value;
  }
  if (const auto wet = table.quantity("friction_wet", Dimension::length)) {
    pack.friction_wet_m = wet->value;
  }
}

void read_pack(TableReader& table, UnitDraft& draft) {
  Pack pack;
  if (const auto id = table.id("id")) {
    pack.id = id->value;
    table.call_it("pack " + in_quotes(pack.id));
  }
  pack.name = table.text_or("name", pack.id);
  std::vector<Reference>& references = draft.references;
  pack.piston = referred(table, "piston", Names::component, references);
  pack.plates = all_referred(table, "plates", Names::component, references);
  pack.ring = referred(table, "ring", Names::component, references);
  read_pack_groove(table, pack, references);
  pack.selective = all_referred(table, "selective", Names::component, references);
  if (const auto clearance = table.limits("clearance")) {
    pack.clearance = *clearance;
  }
  read_frictions(table, pack);
  if (const auto wave = table.text("wave")) {
    pack.wave_free = wave->value == "free";
    if (wave->value != "free" && wave->value != "flat") {
      table.complain("wave",
                     "wave is " + in_quotes(wave->value) +
                         ": the limits are stated with the wave plate free, or flat",
                     "\"free\" or \"flat\"");
    }
  }
  table.finish();
  for (const char* key : {"piston", "plates", "ring"}) {
    if (!table.has(key)) {
      table.complain(key, std::string(key) + " is missing");
    }
  }
  pack.source = table.at();
  draft.packs.push_back({std::move(pack), table.places(), table.what()});
}

void read_play(TableReader& table, UnitDraft& draft) {
  Play play;
  if (const auto id = table.id("id")) {
    play.id = id->value;
    table.call_it("play " + in_quotes(play.id));
  }
  play.name = table.text_or("name", play.id);
  play.moving = all_referred(table, "moving", Names::component, draft.references);
  play.after_step = referred(table, "after", Names::step, draft.references);
  if (const auto limits = table.limits("limits")) {
    play.limits = *limits;
  }
  table.finish();
  if (play.moving.empty()) {
    table.complain("moving", "moving names no component: what moves?");
  }
  if (play.after_step.empty()) {
    table.complain("after", "after is missing: after which step is it measured?");
  }
  play.source = table.at();
  draft.plays.push_back({std::move(play), table.places(), table.what()});
}

} // namespace

std::vector<std::string> ComponentLine::piece_ids() const {
  if (count == 1) {
    return {id};
  }
  std::vector<std::string> ids;
  for (int i = 1; i <= count; ++i) {
    ids.push_back(id + std::to_string(i));
  }
  return ids;
}

std::string referred(TableReader& table, const std::string& key, Names names,
                     std::vector<Reference>& references) {
  const std::optional<WrittenText> written = table.text(key);
  if (!written) {
    return {};
  }
  references.push_back({names, written->value, table.what() + ": " + key, written->at});
  return written->value;
}

std::vector<std::string> all_referred(TableReader& table, const std::string& key, Names names,
                                      std::vector<Reference>& references) {
  std::vector<std::string> all;
  for (WrittenText& written : table.texts(key)) {
    references.push_back({names, written.value, table.what() + ": " + key, written.at});
    all.push_back(std::move(written.value));
  }
  return all;
}

std::optional<UnitDraft> read_unit_toml(const std::string& text, Findings& findings) {
  const std::optional<toml::table> document = parse_toml(text, unit_file, findings);
  if (!document) {
    return std::nullopt;
  }
  TableReader root(*document, unit_file, "unit", findings);
  if (!schema_is_understood(root)) {
    return std::nullopt;
  }
  UnitDraft draft;
  if (const auto name = root.required_text("name")) {
    draft.name = name->value;
  }
  if (const auto label = root.required_text("label")) {
    draft.label = label->value;
  }
  draft.notice = root.text_or("notice", "");
  if (const auto invented = root.flag("invented")) {
    draft.invented = invented->value;
  }
  std::vector<TableReader> lines = root.tables("component", "component");
  std::vector<TableReader> packs = root.tables("pack", "pack");
  std::vector<TableReader> plays = root.tables("play", "play");
  std::vector<TableReader> chains = root.tables("chain", "chain");
  DriveTables drive(root);
  root.finish();
  if (lines.empty()) {
    root.complain("component", "there is no [[component]]: what is it made of?");
  }
  if (lines.size() > most_lines || packs.size() > most_packs || plays.size() > most_packs) {
    root.complain("component", "there are " + std::to_string(lines.size()) + " components, " +
                                   std::to_string(packs.size()) + " packs and " +
                                   std::to_string(plays.size()) + " plays; at most " +
                                   std::to_string(most_lines) + ", " + std::to_string(most_packs) +
                                   " and " + std::to_string(most_packs) + " are read");
    return std::nullopt;
  }
  for (TableReader& line : lines) {
    read_component(line, draft);
  }
  for (TableReader& pack : packs) {
    read_pack(pack, draft);
  }
  for (TableReader& play : plays) {
    read_play(play, draft);
  }
  if (chains.size() > most_packs) {
    root.complain("chain", "there are " + std::to_string(chains.size()) + " chains; at most " +
                               std::to_string(most_packs) + " are read");
    return std::nullopt;
  }
  for (TableReader& chain : chains) {
    read_chain(chain, draft);
  }
  if (drive.any()) {
    read_drive(drive, root, draft);
  }
  return draft;
}

} // namespace lugline
