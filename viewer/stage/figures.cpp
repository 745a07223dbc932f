#include "viewer/stage/figures.h"

#include "viewer/stage/figures_parts.h"

#include <algorithm>
#include <array>
#include <utility>

namespace lugline {

namespace {

constexpr std::array<std::pair<FiguresKind, std::string_view>, 4> kinds = {
    {{FiguresKind::pack, "pack"},
     {FiguresKind::play, "play"},
     {FiguresKind::train, "train"},
     {FiguresKind::air, "air"}}};

} // namespace

std::string_view word_for(FiguresKind kind) {
  return std::ranges::find(kinds, kind, &std::pair<FiguresKind, std::string_view>::first)->second;
}

std::optional<FiguresKind> figures_kind_from(std::string_view word) {
  const auto found =
      std::ranges::find(kinds, word, &std::pair<FiguresKind, std::string_view>::second);
  return found == kinds.end() ? std::nullopt : std::optional(found->first);
}

std::string figures::one_of(const std::vector<std::string>& ids, const std::string& chosen) {
  if (std::ranges::find(ids, chosen) != ids.end()) {
    return chosen;
  }
  return ids.empty() ? std::string() : ids.front();
}

FiguresLists figures_lists(const Unit& unit) {
  FiguresLists lists;
  for (const Pack& pack : unit.packs) {
    lists.packs.push_back(pack.id);
  }
  for (const Play& play : unit.plays) {
    lists.plays.push_back(play.id);
  }
  if (!unit.drive) {
    return lists;
  }
  for (const DriveRange& range : unit.drive->ranges) {
    lists.ranges.push_back(range.id);
  }
  for (const DriveElement& element : unit.drive->elements) {
    if (element.kind != ElementKind::one_way_clutch) {
      lists.switches.push_back(element.id);
    }
    if (element.piston) {
      lists.air.push_back(element.id);
    }
  }
  return lists;
}

FiguresPage figures_page(const Stage& stage, const ViewState& view, FiguresKind kind) {
  FiguresPage page;
  page.kind = kind;
  switch (kind) {
  case FiguresKind::pack:
    figures::fill_pack(page, stage, view);
    break;
  case FiguresKind::play:
    figures::fill_play(page, stage, view);
    break;
  case FiguresKind::train:
    figures::fill_train(page, stage, view);
    break;
  case FiguresKind::air:
    figures::fill_air(page, stage, view);
    break;
  }
  return page;
}

} // namespace lugline
