#include "scene/build/hang.h"

#include "scene/build/feature.h"

#include <algorithm>
#include <optional>

namespace lugline {

namespace {

bool joined_fast(const Joint& joint) {
  switch (joint.kind) {
  case JointKind::fixed:
  case JointKind::stuck:
  case JointKind::sprung:
  case JointKind::retained:
    return true;
  case JointKind::loose:
  case JointKind::turns:
  case JointKind::turns_one_way:
  case JointKind::slides:
    return false;
  }
  return false;
}

std::optional<std::size_t> index_of(const std::vector<Fitted>& pieces, const std::string& id) {
  const auto found = std::ranges::find(pieces, id, &Fitted::id);
  return found == pieces.end() ? std::nullopt
                               : std::optional(static_cast<std::size_t>(found - pieces.begin()));
}

/// A bevelled ring is wedged in its groove, and a waved one that is squashed there
/// springs against both faces; the others have the groove's play.
bool slides_in_groove(const Workshop& workshop, const Fitted& piece) {
  const Component& part = workshop.part(piece.id);
  const bool fast =
      part.ring && (part.ring->bevelled || (part.ring->waved() && piece.squashed_to_m > 0));
  return !piece.groove.empty() && !fast;
}

/// What a piece moves with; nothing where it is loose.
std::optional<std::size_t> moves_with(const std::vector<Fitted>& pieces, const Fitted& piece) {
  for (const std::string& id :
       {piece.groove.empty() ? piece.joint.to : halves(piece.groove).first, piece.stands_on}) {
    if (const auto found = index_of(pieces, id); found && pieces[*found].id != piece.id) {
      return found;
    }
  }
  return std::nullopt;
}

constexpr std::size_t not_yet = static_cast<std::size_t>(-1);

} // namespace

Groups groups_of(const Workshop& workshop, const std::vector<Fitted>& pieces,
                 const std::string& base) {
  Groups groups;
  groups.of.assign(pieces.size(), not_yet);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Fitted& piece = pieces[i];
    const bool loose = slides_in_groove(workshop, piece) || !joined_fast(piece.joint);
    if (piece.id == base || piece.pressed) {
      groups.of[i] = held_group;
    } else if (loose) {
      groups.of[i] = groups.count++;
    }
  }
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    std::optional<std::size_t> at = i;
    for (std::size_t steps = 0; steps < pieces.size() && at && groups.of[*at] == not_yet; ++steps) {
      at = moves_with(pieces, pieces[*at]);
    }
    const bool found = at && groups.of[*at] != not_yet;
    groups.of[i] = found ? groups.of[*at] : held_group;
  }
  return groups;
}

std::vector<LooseGap> gaps_of(const Workshop& workshop, const std::vector<Fitted>& pieces,
                              const std::vector<Body>& bodies,
                              const std::vector<LooseGroup>& groups) {
  std::vector<LooseGap> gaps = gaps_between(bodies, groups);
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (groups[i] == held_group || !slides_in_groove(workshop, pieces[i])) {
      continue;
    }
    const auto [host_id, groove_id] = halves(pieces[i].groove);
    const auto host = index_of(pieces, host_id);
    const auto groove = host ? groove_there(workshop, pieces[*host], groove_id) : std::nullopt;
    if (!groove) {
      continue;
    }
    // The groove's faces alone keep it, whatever else of the host is above and beneath.
    std::erase_if(gaps, [&](const LooseGap& gap) {
      return (gap.upper == i && gap.lower == *host) || (gap.upper == *host && gap.lower == i);
    });
    const double low_m = bodies[i].height_m + bodies[i].shape->low_m();
    const double high_m = bodies[i].height_m + bodies[i].shape->high_m();
    const double host_moved_m = bodies[*host].height_m - pieces[*host].height_m;
    gaps.push_back({i, *host, std::max(low_m - groove->low_m - host_moved_m, 0.0)});
    gaps.push_back({*host, i, std::max(groove->high_m + host_moved_m - high_m, 0.0)});
  }
  return gaps;
}

void stand_again(std::vector<Fitted>& pieces, const std::vector<Body>& bodies,
                 const std::vector<LooseGroup>& groups, const std::vector<bool>& moved) {
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    if (groups[i] == held_group || !moved[groups[i]]) {
      continue;
    }
    std::optional<std::size_t> on;
    for (std::size_t j = 0; j < bodies.size(); ++j) {
      const bool better = !on || bodies[j].id == pieces[i].stands_on;
      if (j != i && better && lies_on(bodies[i], bodies[j])) {
        on = j;
      }
    }
    if (on) {
      pieces[i].stands_on = bodies[*on].id;
    } else if (!pieces[i].groove.empty()) {
      pieces[i].stands_on = halves(pieces[i].groove).first;
    }
  }
}

} // namespace lugline
