// What hangs loose in work that is turned over, carried or lowered.
//
// Pieces that are joined fast move along the axis as one group; a ring moves
// between the faces of its groove; what nothing holds falls onto what is beneath
// it, or is pushed up by what it meets. Heights metres. Inside scene/build only.
#pragma once

#include "scene/build/state.h"
#include "scene/seat/loose.h"

#include <string>
#include <vector>

namespace lugline {

/// Which pieces move as one; those of held_group move with the base.
struct Groups {
  std::vector<LooseGroup> of; ///< one for each piece
  std::size_t count = 1;      ///< the held group among them
};

/// A piece joined fast (fixed, stuck, sprung, retained) moves with what it is
/// joined to, or else with what it stands on; one that is held down stays.
Groups groups_of(const Workshop& workshop, const std::vector<Fitted>& pieces,
                 const std::string& base);

/// Gaps between pieces, and of rings in their grooves. bodies are the pieces'
/// own, in their order, and after them whatever else stands about; groups speak
/// of all of them.
std::vector<LooseGap> gaps_of(const Workshop& workshop, const std::vector<Fitted>& pieces,
                              const std::vector<Body>& bodies,
                              const std::vector<LooseGroup>& groups);

/// What each of the first pieces stands on after they moved: among the bodies of
/// `moved` groups, a body just beneath; what it stood on before where that still is.
void stand_again(std::vector<Fitted>& pieces, const std::vector<Body>& bodies,
                 const std::vector<LooseGroup>& groups, const std::vector<bool>& moved);

} // namespace lugline
