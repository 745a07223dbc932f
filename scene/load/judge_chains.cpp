// Chains: figures that a part has, thicknesses counted once, selectives that can be had.
#include "scene/load/figures.h"
#include "scene/load/judge.h"

#include <algorithm>
#include <set>

namespace lugline {

namespace {

std::string mm(double length_m) {
  return print_length(length_m, LengthUnit::millimetre);
}

/// What a link measures; empty where its part was refused, or has no such figure, which is
/// then complained of.
std::optional<double> length_of(const DraftedLink& link, const Known& known, Findings& findings) {
  const ChainLink& value = link.value;
  if (value.length_m) {
    return value.length_m;
  }
  const UnitComponent* made = known.made(value.part);
  if (made == nullptr) {
    return std::nullopt;
  }
  if (const Figure* figure = made->part.figure(value.figure)) {
    return figure->value_m;
  }
  std::vector<std::string> names;
  std::ranges::transform(made->part.figures, std::back_inserter(names), &Figure::name);
  std::string hint = findings.nearest(value.figure, names);
  if (hint.empty()) {
    hint = names.empty() ? value.part + " has none; length = \"… mm\" states one"
                         : value.part + " has " + listed(names);
  }
  findings.complain(
      link.at.of(link.at.has("figure") ? "figure" : "part"),
      link.what + ": " + in_quotes(value.part) + " has no figure " + in_quotes(value.figure), hint);
  return std::nullopt;
}

/// The gap less the members, where all of them are known.
std::optional<double> left_of(const ChainDraft& chain, const Known& known, Findings& findings) {
  std::optional<double> left_m = length_of(chain.gap, known, findings);
  for (const DraftedLink& member : chain.members) {
    const std::optional<double> length_m = length_of(member, known, findings);
    left_m = left_m && length_m ? std::optional(*left_m - *length_m) : std::nullopt;
  }
  return left_m;
}

void judge_doubles(const ChainDraft& chain, Findings& findings) {
  std::set<std::string> seen;
  for (const DraftedLink& member : chain.members) {
    const ChainLink& link = member.value;
    if (!link.part.empty() && link.figure == thickness_figure && !seen.insert(link.part).second) {
      findings.complain(member.at.of("part"),
                        member.what + ": " + in_quotes(link.part) + " counts twice",
                        "each piece has an id of its own");
    }
  }
}

void judge_selectives(const ChainDraft& chain, const Known& known, Findings& findings) {
  std::set<std::string> seen;
  for (std::size_t i = 0; i < chain.value.selective.size(); ++i) {
    const std::string& id = chain.value.selective[i];
    const SourcePlace& at = chain.at.of("selective[" + std::to_string(i) + "]");
    if (!seen.insert(id).second) {
      findings.complain(at, chain.what + ": selective " + in_quotes(id) + " is listed twice");
    }
    const bool counts = std::ranges::any_of(chain.members, [&](const DraftedLink& member) {
      return member.value.part == id && member.value.figure == thickness_figure;
    });
    if (known.has(id) && !counts) {
      findings.complain(at, chain.what + ": selective " + in_quotes(id) +
                                " is not one of its members that count with their thickness");
    }
    const UnitComponent* made = known.made(id);
    if (made != nullptr && made->thickness_options_m.empty()) {
      findings.complain(at,
                        chain.what + ": " + in_quotes(id) +
                            " is selective, and its component states no options",
                        "options = [\"…\", …] beside its thickness");
    }
  }
}

} // namespace

void judge_chains(const UnitDraft& unit, const Known& known, Findings& findings) {
  for (const ChainDraft& chain : unit.chains) {
    judge_doubles(chain, findings);
    judge_selectives(chain, known, findings);
    const std::optional<double> left_m = left_of(chain, known, findings);
    if (left_m && *left_m < 0) {
      findings.ask(chain.at.of("gap"), chain.what + ": its members are " + mm(-*left_m) +
                                           " more than the gap: is that meant?");
    }
  }
}

} // namespace lugline
