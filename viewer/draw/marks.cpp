#include "viewer/draw/marks.h"

#include "viewer/draw/arrow.h"
#include "viewer/draw/look.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {
namespace {

constexpr double arrow_head_px = 13;
constexpr double arrow_half_px = 5;

/// Metres that a number of finished pixels span at a point.
double metres(const Frame& frame, const glm::dvec3& point, double px) {
  return px * frame.options.scale / frame.view.px_per_m(point);
}

/// A flat arrow head that always shows its face to the eye.
void add_head(const Frame& frame, const glm::dvec3& tip, const glm::dvec3& way,
              const glm::vec3& colour, Marks& marks) {
  const double length = metres(frame, tip, arrow_head_px);
  const double half = metres(frame, tip, arrow_half_px);
  const glm::dvec3 sight = glm::normalize(tip - frame.view.eye_m);
  glm::dvec3 side = glm::cross(way, sight);
  if (glm::length(side) < 1e-9)
    return;
  side = glm::normalize(side) * half;
  const glm::dvec3 back = tip - way * length;
  Patch patch;
  patch.corners_m = {tip, back + side, back + way * (0.22 * length), back - side};
  patch.colour = colour;
  patch.hidden = 0.35;
  patch.nearer_m = metres(frame, tip, 3);
  marks.patches.push_back(patch);
  // Its outline makes the flat edges smooth.
  Ribbon outline;
  outline.points_m = patch.corners_m;
  outline.closed = true;
  outline.colour = colour;
  outline.width_px = 1.0;
  outline.hidden = 0.35;
  outline.nearer_m = patch.nearer_m;
  marks.ribbons.push_back(outline);
}

std::vector<glm::dvec3> arc(const glm::dmat4& place, double radius, double from, double to,
                            double height) {
  const int steps = std::max(2, static_cast<int>(std::ceil(std::abs(to - from) / 0.035)));
  std::vector<glm::dvec3> points;
  for (int i = 0; i <= steps; ++i)
    points.emplace_back(place *
                        glm::dvec4(polar(radius, from + (to - from) * i / steps, height), 1.0));
  return points;
}

/// The half angle that a width takes at a radius.
double half_angle(double width_m, double radius_m) {
  return std::asin(std::clamp(0.5 * width_m / std::max(radius_m, 1e-9), 0.0, 1.0));
}

glm::dvec3 key_middle(const KeyLight& key, const FrameItem* item) {
  const Vec3 middle{0, 0, 0.5 * (key.low_m + key.high_m)};
  const double height =
      stretched_point(middle, item != nullptr ? item->item->stretch : std::nullopt).z;
  const glm::dmat4 place = item != nullptr ? item->place : glm::dmat4(1.0);
  return glm::dvec3(
      place * glm::dvec4(polar(0.5 * (key.inner_m + key.outer_m), key.angle_rad, height), 1.0));
}

void add_key(const Frame& frame, const KeyLight& key, const FrameItem& item, Marks& marks) {
  Ribbon line;
  line.colour = pair_colour(key.pair) * 0.82f;
  line.width_px = item.item->role == Role::in_hand ? 2.2 : 1.9;
  line.hidden = 0.42;
  const auto height = [&](double z) { return stretched_point({0, 0, z}, item.item->stretch).z; };
  const double low = height(key.low_m);
  const double high = height(key.high_m);
  const glm::dvec3 middle(item.place * glm::dvec4(polar(key.outer_m, key.angle_rad, high), 1.0));
  line.nearer_m = metres(frame, middle, 2.0);
  const double outer_half = half_angle(key.width_m, key.outer_m);
  const double inner_half = half_angle(key.width_m, key.inner_m);
  for (double z : {low, high}) {
    // One closed run round each face of the box.
    line.points_m =
        arc(item.place, key.outer_m, key.angle_rad - outer_half, key.angle_rad + outer_half, z);
    const std::vector<glm::dvec3> back =
        arc(item.place, key.inner_m, key.angle_rad + inner_half, key.angle_rad - inner_half, z);
    line.points_m.insert(line.points_m.end(), back.begin(), back.end());
    line.closed = true;
    marks.ribbons.push_back(line);
    if (high - low < 1e-9)
      return;
  }
  line.closed = false;
  for (double side : {-1.0, 1.0}) {
    for (const auto& [radius, half] :
         {std::pair{key.outer_m, outer_half}, std::pair{key.inner_m, inner_half}}) {
      const double angle = key.angle_rad + side * half;
      line.points_m = {glm::dvec3(item.place * glm::dvec4(polar(radius, angle, low), 1.0)),
                       glm::dvec3(item.place * glm::dvec4(polar(radius, angle, high), 1.0))};
      marks.ribbons.push_back(line);
    }
  }
}

/// A part's creases and its outline against the eye, each run in that line.
void add_edges(const Frame& frame, const FrameItem& item, Ribbon line, Marks& marks) {
  const Topology& topology = item.stored->topology;
  const glm::dvec3 eye(glm::inverse(item.place) * glm::dvec4(frame.view.eye_m, 1.0));
  std::vector<glm::dvec3> points;
  points.reserve(topology.points_m.size());
  for (const glm::dvec3& p : topology.points_m)
    points.push_back(stretched_point({p.x, p.y, p.z}, item.item->stretch));
  const auto faces_eye = [&](std::int32_t triangle, std::uint32_t on_it) {
    return glm::dot(topology.face_normals[static_cast<std::size_t>(triangle)],
                    eye - points[on_it]) > 0;
  };
  std::vector<std::array<std::uint32_t, 2>> drawn;
  for (const SharedEdge& edge : topology.edges) {
    bool wanted = edge.crease;
    if (edge.one >= 0 && edge.other >= 0) {
      const bool one = faces_eye(edge.one, edge.from);
      const bool other = faces_eye(edge.other, edge.from);
      wanted = one != other || (edge.crease && (one || other));
    }
    if (!wanted)
      continue;
    if (item.cut) {
      const glm::dvec3 middle(item.place *
                              glm::dvec4(0.5 * (points[edge.from] + points[edge.to]), 1.0));
      if (in_wedge(frame.picture->cut, middle))
        continue;
    }
    drawn.push_back({edge.from, edge.to});
  }
  // A faceted outline lies a little behind the round surface next to it.
  line.nearer_m = metres(frame, glm::dvec3(item.place * glm::dvec4(item.stored->middle_m, 1.0)),
                         item.item->outline ? 10.0 : 2.5);
  for (const EdgeChain& chain : chains_of(drawn, points.size())) {
    line.closed = chain.size() > 3 && chain.front() == chain.back();
    line.points_m.clear();
    for (std::size_t i = 0; i + (line.closed ? 1 : 0) < chain.size(); ++i)
      line.points_m.emplace_back(item.place * glm::dvec4(points[chain[i]], 1.0));
    marks.ribbons.push_back(line);
  }
}

Ribbon ghost_line(const Frame& frame) {
  Ribbon line;
  line.colour = frame.picture->print_look ? Inks{}.ink : Inks{}.ghost;
  line.width_px = 1.15;
  line.dash_px = 5.5;
  line.gap_px = 3.0;
  line.seen = 0.95;
  line.hidden = 0.30;
  line.hidden_by_ghost = 0.0;
  return line;
}

/// Unbroken, for it is there; thin, for it is not what is looked at.
Ribbon see_through_line(const Frame& frame) {
  Ribbon line;
  line.colour = frame.picture->print_look ? Inks{}.ink : Inks{}.ghost;
  line.width_px = 0.9;
  line.seen = 0.55;
  line.hidden = 0.0;
  line.hidden_by_ghost = 0.0;
  return line;
}

Ribbon hidden_line() {
  Ribbon line;
  line.colour = Inks{}.ink;
  line.width_px = 1.0;
  line.dash_px = 4.5;
  line.gap_px = 2.8;
  line.seen = 0.0;
  line.hidden = 0.62;
  line.hidden_by_ghost = 0.0;
  return line;
}

} // namespace

void add_ghosts(const Frame& frame, Marks& marks) {
  for (const FrameItem& item : frame.items)
    if (thin(*item.item))
      add_edges(frame, item, item.item->outline ? see_through_line(frame) : ghost_line(frame),
                marks);
}

void add_hidden(const Frame& frame, Marks& marks) {
  for (const FrameItem& item : frame.items)
    if (item.item->role == Role::in_hand && !thin(*item.item))
      add_edges(frame, item, hidden_line(), marks);
}

void add_keys(const Frame& frame, Marks& marks) {
  for (const KeyLight& key : frame.picture->keys) {
    const FrameItem* item = item_named(frame, key.item);
    // What the cut takes out has no outline either.
    if (item != nullptr && !(item->cut && in_wedge(frame.picture->cut, key_middle(key, item))))
      add_key(frame, key, *item, marks);
  }
}

void add_fall(const Frame& frame, Marks& marks) {
  if (!frame.picture->fall)
    return;
  const FallLine& fall = *frame.picture->fall;
  const glm::dvec3 from = polar(fall.radius_m, fall.angle_rad, fall.from_m);
  const glm::dvec3 to = polar(fall.radius_m, fall.angle_rad, fall.to_m);
  if (glm::length(to - from) < 1e-9)
    return;
  const glm::dvec3 way = glm::normalize(to - from);
  Ribbon line;
  const double head = std::min(0.78 * metres(frame, to, arrow_head_px), glm::length(to - from));
  line.points_m = {from, to - way * head};
  line.colour = Inks{}.path;
  line.width_px = 2.0;
  line.dash_px = 9;
  line.gap_px = 5;
  line.hidden = 0.35;
  line.nearer_m = metres(frame, to, 3);
  marks.ribbons.push_back(line);
  add_head(frame, to, way, line.colour, marks);
}

void add_turn(const Frame& frame, Marks& marks) {
  if (!frame.picture->turn)
    return;
  const TurnArc& turn = *frame.picture->turn;
  const double swept = turn.to_rad - turn.from_rad;
  if (std::abs(swept) < 1e-6)
    return;
  const glm::dvec3 tip = polar(turn.radius_m, turn.to_rad, turn.height_m);
  const double sign = swept > 0 ? 1 : -1;
  const double head =
      std::min(metres(frame, tip, arrow_head_px) / turn.radius_m, std::abs(swept) * 0.8);
  Ribbon line;
  line.points_m = arc(glm::dmat4(1.0), turn.radius_m, turn.from_rad,
                      turn.to_rad - sign * 0.75 * head, turn.height_m);
  line.colour = Inks{}.path;
  line.width_px = 2.4;
  line.hidden = 0.35;
  line.nearer_m = metres(frame, tip, 3);
  marks.ribbons.push_back(line);
  // The head lies along the arc's chord near its tip.
  const glm::dvec3 back = polar(turn.radius_m, turn.to_rad - sign * head, turn.height_m);
  add_head(frame, tip, glm::normalize(tip - back), line.colour, marks);
  // A short tick where the turn starts.
  const double tick = metres(frame, line.points_m.front(), 6);
  Ribbon start = line;
  start.points_m = {polar(turn.radius_m - tick, turn.from_rad, turn.height_m),
                    polar(turn.radius_m + tick, turn.from_rad, turn.height_m)};
  start.width_px = 1.6;
  marks.ribbons.push_back(start);
}

std::vector<PlacedAnchor> place_anchors(const Frame& frame) {
  std::vector<PlacedAnchor> placed;
  const auto add = [&](AnchorKind kind, const std::string& item, int number,
                       const std::string& words, const glm::dvec3& point) {
    PlacedAnchor anchor;
    anchor.point_m = point;
    anchor.nearer_m = metres(frame, point, 5);
    anchor.anchor.kind = kind;
    anchor.anchor.item = item;
    anchor.anchor.number = number;
    anchor.anchor.words = words;
    if (const auto px = frame.view.on_screen(point)) {
      anchor.anchor.x_px = px->x;
      anchor.anchor.y_px = px->y;
      anchor.anchor.on_screen =
          px->x >= 0 && px->y >= 0 && px->x < frame.view.width_px && px->y < frame.view.height_px;
    }
    placed.push_back(anchor);
  };
  const Picture& picture = *frame.picture;
  for (const KeyLight& key : picture.keys) {
    const FrameItem* item = item_named(frame, key.item);
    add(AnchorKind::key, key.item, key.pair, {}, key_middle(key, item));
    placed.back().cut_away =
        item != nullptr && item->cut && in_wedge(frame.picture->cut, placed.back().point_m);
  }
  if (picture.up) {
    const glm::dmat4 place = arrow_place(*picture.up, item_named(frame, picture.up->item), frame);
    add(AnchorKind::up_arrow, picture.up->item, 0, picture.up->words,
        glm::dvec3(place * glm::dvec4(0, 0, 1.1, 1)));
  }
  for (const SceneLabel& label : picture.labels)
    add(AnchorKind::label, label.item, 0, label.words,
        polar(label.radius_m, label.angle_rad, label.height_m));
  if (picture.fall) {
    const FallLine& fall = *picture.fall;
    add(AnchorKind::fall_from, {}, 0, {}, polar(fall.radius_m, fall.angle_rad, fall.from_m));
    add(AnchorKind::fall_to, {}, 0, {}, polar(fall.radius_m, fall.angle_rad, fall.to_m));
  }
  if (picture.turn) {
    const TurnArc& turn = *picture.turn;
    add(AnchorKind::turn_arc, {}, 0, turn.words,
        polar(turn.radius_m, 0.5 * (turn.from_rad + turn.to_rad), turn.height_m));
  }
  return placed;
}

} // namespace lugline
