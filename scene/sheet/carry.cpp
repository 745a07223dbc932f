#include "scene/sheet/carry.h"

#include "scene/mesh/vector.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace lugline {

namespace {

constexpr double room_above_m = 0.02;

double leg(double share, double from, double to) {
  const double s = std::clamp((share - from) / (to - from), 0.0, 1.0);
  return s * s * (3 - 2 * s);
}

Vec3 mixed(const Vec3& a, const Vec3& b, double share) {
  return a * (1 - share) + b * share;
}

Vec3 point_in(const PieceFrame& frame, const Vec3& own_m) {
  return turned(frame.turn, own_m) + frame.at_m;
}

} // namespace

Carry::Carry(PieceFrames was, PieceFrames will, const std::string& lead, double clear_m)
    : was_(std::move(was)), will_(std::move(will)), lead_(lead) {
  assert(was_.contains(lead) && will_.contains(lead));
  const PieceFrame& from = was_.at(lead);
  const PieceFrame& to = will_.at(lead);
  const Vec3 middle_there{from.at_m.x, from.at_m.y, (from.low_m + from.high_m) / 2};
  middle_m_ = turned(turned_back(from.turn), middle_there - from.at_m);
  // What takes the one to the other is a turn about the axis, with or without one over.
  const Quaternion way = then(turned_back(from.turn), to.turn);
  over_rad_ = turned(way, {0, 0, 1}).z < 0 ? std::numbers::pi : 0;
  const Vec3 noon = turned(way, {0, 1, 0});
  turn_rad_ = std::atan2(-noon.x, noon.y);
  if (std::abs(turn_rad_) > std::numbers::pi - 1e-9) {
    turn_rad_ = std::numbers::pi;
  }
  double reach_m = 0;
  for (const auto& [id, frame] : was_) {
    const double up_m =
        std::max(std::abs(frame.high_m - middle_there.z), std::abs(frame.low_m - middle_there.z));
    reach_m = std::max(reach_m, over_rad_ > 0 ? std::hypot(up_m, frame.outer_m) : up_m);
  }
  over_top_m_ =
      std::max({clear_m + reach_m + room_above_m, middle_there.z, point_in(to, middle_m_).z});
}

PieceFrames Carry::at(double share) const {
  const PieceFrame& from = was_.at(lead_);
  const PieceFrame& to = will_.at(lead_);
  const Vec3 begin = point_in(from, middle_m_);
  const Vec3 end = point_in(to, middle_m_);
  Vec3 middle = mixed(begin, end, leg(share, 0.25, 0.75));
  middle.z = begin.z + (over_top_m_ - begin.z) * leg(share, 0, 0.35) +
             (end.z - over_top_m_) * leg(share, 0.65, 1);
  const double turned_share = leg(share, 0.3, 0.7);
  PieceFrame lead = from;
  lead.turn = then(then(from.turn, turned_over_by(over_rad_ * turned_share)),
                   turned_about_axis(turn_rad_ * turned_share));
  lead.at_m = middle - turned(lead.turn, middle_m_);
  // What is loose in it comes to hang as it is carried.
  const double hangs = leg(share, 0.35, 0.65);
  PieceFrames frames;
  for (const auto& [id, was] : was_) {
    const PieceFrame& will = will_.at(id);
    const auto relative = [](const PieceFrame& base, const PieceFrame& piece) {
      const Quaternion back = turned_back(base.turn);
      return std::pair{turned(back, piece.at_m - base.at_m), then(piece.turn, back)};
    };
    const auto [at_was, turn_was] = relative(from, was);
    const auto [at_will, turn_will] = relative(to, will);
    PieceFrame frame = will;
    frame.at_m = point_in(lead, mixed(at_was, at_will, hangs));
    frame.turn = then(between(turn_was, turn_will, hangs), lead.turn);
    frame.squash = was.squash + (will.squash - was.squash) * hangs;
    frames[id] = frame;
  }
  return frames;
}

} // namespace lugline
