// Words in the picture: key numbers in circles, and labels whose leaders never
// cross, kept off the part in hand.
#include "viewer/stage/page_parts.h"

#include <algorithm>
#include <cmath>

namespace lugline::page {

namespace {

constexpr double badge_px = 14;
constexpr double edge_px = 10;
constexpr double search_step_px = 6;

double side_of(PointPx a, PointPx b, PointPx c) {
  return (b.x_px - a.x_px) * (c.y_px - a.y_px) - (b.y_px - a.y_px) * (c.x_px - a.x_px);
}

struct Leader {
  PointPx from;
  PointPx to;
};

bool cross(const Leader& one, const Leader& other) {
  return side_of(one.from, one.to, other.from) * side_of(one.from, one.to, other.to) < 0 &&
         side_of(other.from, other.to, one.from) * side_of(other.from, other.to, one.to) < 0;
}

bool crosses(const Leader& leader, const Box& box) {
  const PointPx corners[] = {{box.x_px, box.y_px},
                             {box.right_px(), box.y_px},
                             {box.right_px(), box.bottom_px()},
                             {box.x_px, box.bottom_px()}};
  if (box.holds(leader.from) || box.holds(leader.to)) {
    return true;
  }
  for (std::size_t i = 0; i < 4; ++i) {
    if (cross(leader, {corners[i], corners[(i + 1) % 4]})) {
      return true;
    }
  }
  return false;
}

class Labels {
public:
  Labels(Drawing2d& drawing, const Box& picture, const PageMarks& marks, const TextRuler& ruler)
      : drawing_(drawing), picture_(picture), marks_(marks), ruler_(ruler) {}

  void draw() {
    for (const PageAnchor& anchor : marks_.anchors) {
      if (anchor.sort == AnchorSort::key && picture_.holds(anchor.at)) {
        place_badge(anchor);
      }
    }
    std::vector<const PageAnchor*> worded;
    for (const PageAnchor& anchor : marks_.anchors) {
      if ((anchor.sort == AnchorSort::label || anchor.sort == AnchorSort::turn_arc) &&
          !anchor.words.empty() && picture_.holds(anchor.at)) {
        worded.push_back(&anchor);
      }
    }
    std::ranges::stable_sort(worded, {}, [](const PageAnchor* anchor) { return anchor->at.y_px; });
    for (const PageAnchor* anchor : worded) {
      place_label(*anchor);
    }
    for (const Badge& badge : badges_) {
      draw_badge(badge);
    }
  }

private:
  struct Badge {
    const PageAnchor* anchor;
    PointPx at;
  };

  /// Beside its key rather than on it, and clear of other badges.
  void place_badge(const PageAnchor& anchor) {
    const double outward = anchor.at.x_px >= picture_.x_px + picture_.width_px / 2 ? 1 : -1;
    PointPx at{anchor.at.x_px + outward * 1.7 * badge_px, anchor.at.y_px - 1.2 * badge_px};
    at.x_px = std::clamp(at.x_px, picture_.x_px + badge_px + 2, picture_.right_px() - badge_px - 2);
    at.y_px =
        std::clamp(at.y_px, picture_.y_px + badge_px + 2, picture_.bottom_px() - badge_px - 2);
    for (int tries = 0; tries < 40; ++tries) {
      const bool taken = std::ranges::any_of(badges_, [&](const Badge& badge) {
        return std::hypot(badge.at.x_px - at.x_px, badge.at.y_px - at.y_px) < 2 * badge_px + 3;
      });
      if (!taken) {
        break;
      }
      at.y_px += at.y_px + search_step_px < picture_.bottom_px() - badge_px ? search_step_px
                                                                            : -at.y_px / 2;
    }
    badges_.push_back({&anchor, at});
    taken_.push_back({at.x_px - badge_px, at.y_px - badge_px, 2 * badge_px, 2 * badge_px});
  }

  void draw_badge(const Badge& badge) {
    const PageAnchor& anchor = *badge.anchor;
    const double dash = anchor.visible ? 0 : 3;
    drawing_.add(line(badge.at.x_px, badge.at.y_px, anchor.at.x_px, anchor.at.y_px,
                      {anchor.colour, 1.75, dash, dash}));
    drawing_.add(CircleShape{badge.at, badge_px, ink::white,
                             Stroke{anchor.colour, 3, dash > 0 ? 5.0 : 0.0, dash}});
    put_level(drawing_, ruler_, std::to_string(anchor.number),
              {15, FontWeight::bold, anchor.colour}, badge.at.x_px, badge.at.y_px,
              TextAlign::centre);
  }

  [[nodiscard]] bool allowed(const Box& box, const Leader& leader) const {
    if (marks_.hand && overlap(box, *marks_.hand)) {
      return false;
    }
    const auto meets = [&](const Box& other) {
      return overlap(box, other) || crosses(leader, other);
    };
    if (std::ranges::any_of(taken_, meets)) {
      return false;
    }
    return std::ranges::none_of(
        leaders_, [&](const Leader& other) { return cross(leader, other) || crosses(other, box); });
  }

  struct Place {
    Box box;
    Leader leader;
    double wrap_px = 0;
    double cost = 0;
  };

  /// The best free place at either edge of the picture; none: left out.
  void place_label(const PageAnchor& anchor) {
    const Lettering type{14, FontWeight::medium,
                         anchor.sort == AnchorSort::label ? ink::text : ink::path, 1.25};
    std::optional<Place> best;
    for (const double wrap : {180.0, 110.0, 76.0}) {
      if (words_fit(ruler_, anchor.words, type, wrap) && wrap < 0.5 * picture_.width_px) {
        try_edge(anchor, type, wrap, false, best);
        try_edge(anchor, type, wrap, true, best);
      }
    }
    if (best) {
      put(anchor, type, *best);
    }
  }

  void try_edge(const PageAnchor& anchor, const Lettering& type, double wrap, bool right,
                std::optional<Place>& best) const {
    const double width = words_width(ruler_, anchor.words, type, wrap);
    const double height = words_height(ruler_, anchor.words, type, wrap);
    const double x = right ? picture_.right_px() - edge_px - width : picture_.x_px + edge_px;
    for (double y = picture_.y_px + 6; y + height < picture_.bottom_px() - 6; y += search_step_px) {
      Place place{{x, y, width, height}, {}, wrap, 0};
      place.leader = {{right ? x - 5 : x + width + 5, y + height / 2}, anchor.at};
      const double run =
          right ? place.leader.from.x_px - anchor.at.x_px : anchor.at.x_px - place.leader.from.x_px;
      if (run < 4) {
        continue;
      }
      // Short leaders, few lines, little of the machine covered, and no leader across the
      // part in hand if it can be had.
      place.cost = std::hypot(run, place.leader.from.y_px - anchor.at.y_px) + 0.6 * height +
                   1.5 * std::max(width - 0.2 * picture_.width_px, 0.0);
      if (marks_.hand && !marks_.hand->holds(anchor.at) && crosses(place.leader, *marks_.hand)) {
        place.cost += 1000;
      }
      if (run > 0.45 * picture_.width_px) {
        continue;
      }
      if ((!best || place.cost < best->cost) && allowed(place.box, place.leader)) {
        best = place;
      }
    }
  }

  void put(const PageAnchor& anchor, const Lettering& type, const Place& place) {
    const Leader& leader = place.leader;
    drawing_.add(plain_rect(shrunk(place.box, -4), Colour{250, 245, 234, 205}));
    drawing_.add(line(leader.from.x_px, leader.from.y_px, leader.to.x_px, leader.to.y_px,
                      {type.colour, 1.1, 0, 0}));
    drawing_.add(CircleShape{leader.to, 2.5, type.colour, std::nullopt});
    put_words(drawing_, ruler_, anchor.words, type, place.box.x_px, place.box.y_px, place.wrap_px);
    taken_.push_back(shrunk(place.box, -4));
    leaders_.push_back(leader);
  }

  Drawing2d& drawing_;
  const Box& picture_;
  const PageMarks& marks_;
  const TextRuler& ruler_;
  std::vector<Badge> badges_;
  std::vector<Box> taken_;
  std::vector<Leader> leaders_;
};

} // namespace

void draw_labels(Drawing2d& drawing, const Box& picture, const PageMarks& marks,
                 const TextRuler& ruler) {
  Labels(drawing, picture, marks, ruler).draw();
}

} // namespace lugline::page
