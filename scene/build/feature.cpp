#include "scene/build/feature.h"

#include "scene/seat/ring.h"

#include <algorithm>

namespace lugline {

std::pair<std::string, std::string> halves(const std::string& path) {
  const auto slash = path.find('/');
  return slash == std::string::npos ? std::pair{path, std::string()}
                                    : std::pair{path.substr(0, slash), path.substr(slash + 1)};
}

std::optional<Groove> groove_there(const Workshop& workshop, const Fitted& host,
                                   const std::string& id) {
  const Component& part = workshop.part(host.id);
  const Groove* drawn = part.groove(id);
  if (drawn == nullptr) {
    return std::nullopt;
  }
  Groove groove = host.over ? turned_over(*drawn, part.solid.low_m(), part.solid.high_m()) : *drawn;
  groove.low_m += host.height_m;
  groove.high_m += host.height_m;
  return groove;
}

std::optional<Key> key_there(const Workshop& workshop, const Fitted& host, const std::string& id) {
  const Component& part = workshop.part(host.id);
  const auto found = std::ranges::find(part.keys, id, &Key::id);
  if (found == part.keys.end()) {
    return std::nullopt;
  }
  Key key = *found;
  if (host.over) {
    const double sum_m = part.solid.low_m() + part.solid.high_m();
    key.low_m = sum_m - found->high_m;
    key.high_m = sum_m - found->low_m;
    key.angle_rad = -found->angle_rad;
  }
  key.angle_rad += host.turn_rad;
  key.low_m += host.height_m;
  key.high_m += host.height_m;
  return key;
}

std::optional<double> loaded_height(Workshop& workshop, const PlaceState& place,
                                    const Fitted& ring) {
  const auto [host_id, groove_id] = halves(ring.groove);
  const Fitted* host = place.find(host_id);
  const auto groove = host == nullptr ? std::nullopt : groove_there(workshop, *host, groove_id);
  if (!groove) {
    return std::nullopt;
  }
  const Shape& shape = workshop.loaded_ring(ring.id, ring.over);
  return groove->loads_up ? groove->high_m - shape.high_m() : groove->low_m - shape.low_m();
}

} // namespace lugline
