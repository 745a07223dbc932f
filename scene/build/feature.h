// Grooves and keys where they stand: raised, turned and turned over with the
// piece that has them. Metres and radians in the frame of the place. Values;
// a name that is not there gives nothing.
#pragma once

#include "scene/build/state.h"

#include <optional>
#include <string>
#include <utility>

namespace lugline {

/// "COMPONENT/ID" in two; all in the first where there is no '/'.
std::pair<std::string, std::string> halves(const std::string& path);

/// Its load face is the other one where the piece is turned over.
std::optional<Groove> groove_there(const Workshop& workshop, const Fitted& host,
                                   const std::string& id);
std::optional<Key> key_there(const Workshop& workshop, const Fitted& host, const std::string& id);

/// The height of a ring's datum where it is pushed against the load face of the
/// groove that it sits in; nothing where it sits in none.
std::optional<double> loaded_height(Workshop& workshop, const PlaceState& place,
                                    const Fitted& ring);

} // namespace lugline
