#include "scene/sheet/keys.h"

#include "scene/mesh/vector.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace lugline {

namespace {

constexpr double off_m = 0.05e-3;
constexpr double off_rad = 0.1 * std::numbers::pi / 180;
constexpr double off_squash = 0.002;
/// Farther than this from key to key, and players may differ about the way round.
constexpr double longest_turn_rad = std::numbers::pi / 4;
constexpr double rest_m = 1e-9;
constexpr double rest_rad = 1e-9;

/// Whether the samples between two keys are near the straight way from the one to the other.
using Near = std::function<bool(const TrackKeys&, std::size_t, std::size_t, std::size_t)>;

double share_of(const TrackKeys& keys, std::size_t from, std::size_t to, std::size_t i) {
  return (keys.at_s[i] - keys.at_s[from]) / (keys.at_s[to] - keys.at_s[from]);
}

bool place_near(const TrackKeys& keys, std::size_t from, std::size_t to, std::size_t i) {
  const double share = share_of(keys, from, to, i);
  const Vec3& a = keys.frames[from].at_m;
  const Vec3& b = keys.frames[to].at_m;
  // Where it rests it rests: no drift.
  const double off = length(a - b) < rest_m ? rest_m : off_m;
  return length(a * (1 - share) + b * share - keys.frames[i].at_m) <= off;
}

bool turn_near(const TrackKeys& keys, std::size_t from, std::size_t to, std::size_t i) {
  const Quaternion& a = keys.frames[from].turn;
  const Quaternion& b = keys.frames[to].turn;
  const double wide = angle_between(a, b);
  const double off = wide < rest_rad ? rest_rad : off_rad;
  return wide <= longest_turn_rad &&
         angle_between(between(a, b, share_of(keys, from, to, i)), keys.frames[i].turn) <= off;
}

bool squash_near(const TrackKeys& keys, std::size_t from, std::size_t to, std::size_t i) {
  const double share = share_of(keys, from, to, i);
  const double straight = keys.frames[from].squash * (1 - share) + keys.frames[to].squash * share;
  const double off =
      std::abs(keys.frames[from].squash - keys.frames[to].squash) < 1e-9 ? 1e-9 : off_squash;
  return std::abs(straight - keys.frames[i].squash) <= off;
}

/// Kept samples: from each the farthest that the straight way reaches.
std::vector<std::size_t> kept(const TrackKeys& keys, const Near& near) {
  std::vector<std::size_t> result{0};
  const std::size_t last = keys.at_s.size() - 1;
  while (result.back() < last) {
    const std::size_t from = result.back();
    std::size_t to = from + 1;
    const auto reaches = [&](std::size_t end) {
      for (std::size_t i = from + 1; i < end; ++i) {
        if (keys.stays[i] || !near(keys, from, end, i)) {
          return false;
        }
      }
      return true;
    };
    while (to < last && reaches(to + 1)) {
      ++to;
    }
    result.push_back(to);
  }
  return result;
}

KeyTrack track_of(std::size_t node, KeyedFigure figure, const TrackKeys& keys, const Near& near,
                  const std::function<std::array<double, 4>(const PieceFrame&)>& read) {
  KeyTrack track;
  track.node = node;
  track.figure = figure;
  for (const std::size_t i : kept(keys, near)) {
    track.times_s.push_back(keys.at_s[i]);
    track.figures.push_back(read(keys.frames[i]));
  }
  return track;
}

std::array<double, 4> scale_of(bool shown) {
  return shown ? std::array<double, 4>{1, 1, 1, 0} : std::array<double, 4>{};
}

/// Only where it changes, and at both ends.
KeyTrack shown_track(const KeyedPiece& piece, const TrackKeys& keys) {
  KeyTrack track;
  track.node = piece.node;
  track.figure = KeyedFigure::scale;
  track.steps = true;
  for (std::size_t i = 0; i < keys.at_s.size(); ++i) {
    const bool ends = i == 0 || i + 1 == keys.at_s.size();
    if (ends || keys.frames[i].shown != keys.frames[i - 1].shown) {
      track.times_s.push_back(keys.at_s[i]);
      track.figures.push_back(scale_of(keys.frames[i].shown));
    }
  }
  return track;
}

} // namespace

void TrackKeys::add(double time_s, const PieceFrame& frame, bool stay) {
  // Nearer than a thousandth of a second is one time: floats must still tell keys apart.
  if (!at_s.empty() && time_s - at_s.back() < 1e-3) {
    frames.back() = frame;
    stays.back() = stays.back() || stay;
    return;
  }
  at_s.push_back(time_s);
  frames.push_back(frame);
  stays.push_back(stay);
}

void add_tracks(const KeyedPiece& piece, const TrackKeys& keys, std::vector<KeyTrack>& tracks) {
  const auto differs = [&](const auto& unlike) { return std::ranges::any_of(keys.frames, unlike); };
  if (differs([&](const PieceFrame& f) { return f.shown != piece.rest.shown; })) {
    tracks.push_back(shown_track(piece, keys));
  }
  if (differs([&](const PieceFrame& f) { return length(f.at_m - piece.rest.at_m) > rest_m; })) {
    tracks.push_back(track_of(piece.node, KeyedFigure::place, keys, place_near,
                              [](const PieceFrame& f) -> std::array<double, 4> {
                                return {f.at_m.x, f.at_m.y, f.at_m.z, 0};
                              }));
  }
  if (differs(
          [&](const PieceFrame& f) { return angle_between(f.turn, piece.rest.turn) > rest_rad; })) {
    tracks.push_back(track_of(piece.node, KeyedFigure::turn, keys, turn_near,
                              [](const PieceFrame& f) -> std::array<double, 4> {
                                return {f.turn.x, f.turn.y, f.turn.z, f.turn.w};
                              }));
  }
  if (piece.giving &&
      differs([&](const PieceFrame& f) { return std::abs(f.squash - piece.rest.squash) > 1e-9; })) {
    tracks.push_back(track_of(*piece.giving, KeyedFigure::place, keys, squash_near,
                              [&](const PieceFrame& f) -> std::array<double, 4> {
                                return {0, 0, piece.low_m * (1 - f.squash), 0};
                              }));
    tracks.push_back(track_of(*piece.giving, KeyedFigure::scale, keys, squash_near,
                              [](const PieceFrame& f) -> std::array<double, 4> {
                                return {1, 1, f.squash, 0};
                              }));
  }
}

void add_still(const KeyedPiece& piece, const PieceFrame& frame, double seconds,
               std::vector<KeyTrack>& tracks) {
  TrackKeys keys;
  if (!frame.shown) {
    // Where it would be does not matter.
    keys.add(0, piece.rest);
    keys.frames.front().shown = false;
  } else {
    keys.add(0, frame);
  }
  keys.add(std::max(seconds, 1e-2), keys.frames.front());
  add_tracks(piece, keys, tracks);
}

} // namespace lugline
