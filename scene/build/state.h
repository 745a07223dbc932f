// What is in, where, and how it is joined: the state of a build.
//
// One value; a step makes the next from it. Heights are of a piece's datum in
// the frame of the place that it is in, metres; turns radians.
#pragma once

#include "scene/build/workshop.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace lugline {

struct Fitted {
  std::string id; ///< component id
  double height_m = 0;
  double turn_rad = 0;
  bool over = false; ///< turned over against its drawn frame
  Joint joint;
  std::string stands_on;    ///< component id; empty: the place's base
  double squashed_to_m = 0; ///< a spring's, wave plate's or waved ring's height now; 0: free
  std::string band_state;
  std::string groove;   ///< snap ring: "COMPONENT/GROOVE" that it sits in
  bool pressed = false; ///< held down, not at rest
};

struct PlaceState {
  std::vector<Fitted> fitted; ///< in the order in which they went in
  bool over = false;          ///< the work stands upside down

  [[nodiscard]] const Fitted* find(const std::string& id) const;
  Fitted* find(const std::string& id);
};

struct BuildState {
  std::map<std::string, PlaceState> places; ///< by Place::id

  /// The place that a component is in; null where it is in none.
  [[nodiscard]] const PlaceState* place_with(const std::string& id) const;
};

/// The piece's shape as it stands.
const Shape& shape_of(Workshop& workshop, const Fitted& fitted);

/// Bodies of everything in the place but `without`, in the order of `ids`,
/// which is filled. Pieces whose joint lets them turn get spins of their own,
/// from first_spin up; what is joined fast to one turns with it; the others are fixed.
struct Bodies {
  std::vector<Body> bodies;
  std::vector<std::string> ids;
  [[nodiscard]] std::optional<std::size_t> index(const std::string& id) const;
};
Bodies bodies_in(Workshop& workshop, const PlaceState& place,
                 const std::vector<std::string>& without = {}, Spin first_spin = 2);

/// Whether its joint lets it turn by itself.
bool turns_freely(const Joint& joint);

/// The spins of pieces that stand together: own ones from first_spin up for those
/// whose joint lets them turn, `fast` for what turns with nothing of them.
std::vector<Spin> spins_of(const std::vector<Fitted>& pieces, Spin first_spin, Spin fast);

/// The work turned over about the 12 o'clock axis; the base takes up the same
/// heights as before, and what is loose falls the other way. Gives the ids of what
/// fell out, which is in the place no more.
std::vector<std::string> turn_over(Workshop& workshop, PlaceState& place, const std::string& base);

/// Everything that nothing holds falls, lowest first, onto what is under it. Gives
/// the ids of what nothing stops, which is in the place no more.
std::vector<std::string> settle(Workshop& workshop, PlaceState& place, const std::string& base);

} // namespace lugline
