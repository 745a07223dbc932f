// The [[chain]] tables of unit.toml: plays and travels off the axis.
#include "scene/load/draft.h"

namespace lugline {

namespace {

constexpr std::size_t most_links = 64;
constexpr const char* thickness = "thickness";

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

DraftedLink read_link(TableReader& table, std::vector<Reference>& references) {
  DraftedLink drafted;
  ChainLink& link = drafted.value;
  link.name = table.text_or("name", "");
  link.part = referred(table, "part", Names::component, references);
  link.figure = table.text_or("figure", "");
  if (const auto length = table.quantity("length", Dimension::length)) {
    link.length_m = length->value;
    if (length->value <= 0) {
      table.complain("length", "length is " + mm(length->value) + ", which takes up no room",
                     "leave it out, or write what it measures");
    }
  }
  table.finish();
  if (table.has("figure") && table.has("length")) {
    table.complain("length", "there is a figure and a length: which of the two counts?",
                   "a figure is the part's own, and a reading of it replaces it; a length is "
                   "stated here");
  } else if (table.has("figure") && !table.has("part")) {
    table.complain("figure", "there is a figure and no part: whose figure is it?");
  } else if (!table.has("part") && !table.has("length")) {
    table.complain("part", "there is neither a part nor a length: what takes up the room?",
                   "part = \"COMPONENT\", or name = \"…\" and length = \"… mm\"");
  } else if (!table.has("part") && link.name.empty()) {
    table.complain("name", "name is missing: what is that length of?");
  }
  if (!link.length_m && link.figure.empty()) {
    link.figure = thickness;
  }
  drafted.at = table.places();
  drafted.what = table.what();
  return drafted;
}

} // namespace

void read_chain(TableReader& table, UnitDraft& draft) {
  ChainDraft drafted;
  Chain& chain = drafted.value;
  if (const auto id = table.id("id")) {
    chain.id = id->value;
    table.call_it("chain " + in_quotes(chain.id));
  }
  chain.name = table.text_or("name", chain.id);
  std::optional<TableReader> gap = table.table("gap", table.what() + ": gap");
  std::vector<TableReader> members = table.tables("member", table.what() + ": member");
  chain.needs = all_referred(table, "needs", Names::component, draft.references);
  chain.selective = all_referred(table, "selective", Names::component, draft.references);
  if (const auto limits = table.limits("limits")) {
    chain.limits = *limits;
    if (limits->low_m < 0) {
      table.complain("limits", "the lower limit is below nothing, " + mm(limits->low_m) +
                                   ": then it does not go in at all");
    }
  }
  table.finish();
  if (!gap && !table.has("gap")) {
    table.complain("gap", "gap is missing: what is it that they fill?",
                   "gap = { name = \"…\", length = \"… mm\" }");
  }
  if (members.empty()) {
    table.complain("member", "there is no [[chain.member]]: what fills the gap?");
  }
  if (members.size() > most_links) {
    table.complain("member", "there are " + std::to_string(members.size()) + " members; at most " +
                                 std::to_string(most_links) + " are read");
    members.clear();
  }
  if (gap) {
    drafted.gap = read_link(*gap, draft.references);
  }
  for (TableReader& member : members) {
    drafted.members.push_back(read_link(member, draft.references));
  }
  chain.gap = drafted.gap.value;
  for (const DraftedLink& member : drafted.members) {
    chain.members.push_back(member.value);
  }
  chain.source = table.at();
  drafted.at = table.places();
  drafted.what = table.what();
  draft.chains.push_back(std::move(drafted));
}

} // namespace lugline
