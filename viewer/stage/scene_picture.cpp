// From the moment of a step to what is drawn in 3D.
#include "viewer/stage/answers.h"

#include "scene/build/feature.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lugline {

namespace {

constexpr double pi = std::numbers::pi;
constexpr double degree_rad = pi / 180;
/// The cut is a quarter, opened towards the eye and beside the key.
constexpr double cut_rad = 90 * degree_rad;
constexpr double beside_key_rad = 16 * degree_rad;
constexpr double margin = 1.07;
constexpr double whole_costs_little = 1.5;
/// The arrow has a height in pixels; this share of the picture holds it.
constexpr double arrow_room = 0.15;
/// How far from square a row is seen: enough to see into what is open.
constexpr double row_rise_rad = 24 * degree_rad;
/// Air between parts that are pulled apart.
constexpr double gap_m = 0.010;
constexpr double off_flanks_rad = 0.037 * degree_rad;

struct Framing {
  double low_m = 0;
  double high_m = 0;
  double outer_m = 0.02;
};

const Key* key_named(const Component& part, const std::string& id) {
  const auto found = std::ranges::find(part.keys, id, &Key::id);
  return found == part.keys.end() ? nullptr : &*found;
}

double piece_height(const Shape& shape) {
  return shape.low_m() + shape.high_m();
}

/// Turned over about its own middle, and perhaps bodily with the work about a
/// height in the place: one turn about the 12 o'clock axis and a shift.
Pose pose_of(const PosedPiece& piece, const Shape& shape) {
  Pose pose;
  pose.turn_rad = piece.turn_rad;
  pose.height_m = piece.height_m;
  pose.aside_m = piece.aside_m;
  const double own_rad = piece.over ? pi : 0;
  pose.over_rad = own_rad + piece.over_more_rad;
  if (piece.over_more_rad == 0) {
    pose.over_about_m = piece.over ? piece_height(shape) / 2 : 0;
    return pose;
  }
  const double middle_m = piece.over ? piece_height(shape) / 2 : 0;
  const double about_m = piece.over_about_m - piece.height_m;
  // p -> R(more)(R(own)(p - middle) + middle - about) + about, on the axis.
  const double arm_m = middle_m - about_m;
  const double total_rad = pose.over_rad;
  pose.over_about_m = 0;
  pose.aside_m += arm_m * std::sin(piece.over_more_rad) - middle_m * std::sin(total_rad);
  pose.height_m += arm_m * std::cos(piece.over_more_rad) + about_m - middle_m * std::cos(total_rad);
  return pose;
}

std::optional<Stretch> stretch_of(const Workshop& workshop, const UnitComponent& component,
                                  const PosedPiece& piece) {
  const Component& part = workshop.part(component.id);
  if (piece.squashed_to_m > 0) {
    const double low_m = part.solid.low_m();
    const double high_m = part.solid.high_m();
    return Stretch{low_m, high_m, piece.squashed_to_m - (high_m - low_m)};
  }
  const Figure* figure = part.figure("thickness");
  if (figure == nullptr || !component.model_thickness_m) {
    return std::nullopt;
  }
  const double delta_m = figure->value_m - *component.model_thickness_m;
  if (std::abs(delta_m) < 1e-9) {
    return std::nullopt;
  }
  // The zone is that of the model, before it was stretched.
  return Stretch{figure->zone_low_m, figure->zone_high_m - delta_m, delta_m};
}

/// The highest face at this radius, so that an arrow stands on metal and not at
/// the height of a hub somewhere else.
double top_at_m(const Solid& solid, double radius_m) {
  double top_m = solid.low_m();
  bool any = false;
  for (const SectorRing& ring : solid.rings) {
    if (ring.inner_m <= radius_m && radius_m <= ring.outer_m) {
      top_m = std::max(top_m, ring.high_m);
      any = true;
    }
  }
  return any ? top_m : solid.high_m();
}

class PictureMaker {
public:
  PictureMaker(const Unit& unit, Workshop& workshop, const Simulation& simulation,
               const ViewState& view, double aspect, const std::optional<Lowered>& dropped,
               BodySorter& bodies, SurfacePlaces& places)
      : unit_(unit), workshop_(workshop), simulation_(simulation), view_(view), aspect_(aspect),
        dropped_(dropped), bodies_(bodies), places_(places), step_(unit.steps[view.step]),
        outcome_(simulation.outcomes[view.step]),
        moment_(moment_of(workshop, simulation, view.step, view.moment)) {}

  Picture make() {
    if (step_.kind == StepKind::turn_over) {
      find_sweep();
    }
    apply_hand();
    apart();
    add_items();
    light_keys();
    add_up_arrow();
    add_fall();
    aim();
    look_through();
    leave_whole();
    picture_.print_look = view_.settings.print_look;
    picture_.hidden_edges = view_.settings.hidden_edges && in_hand_;
    return std::move(picture_);
  }

private:
  const Shape& shape_of_piece(const PosedPiece& piece) {
    Fitted fitted;
    fitted.id = piece.id;
    fitted.over = piece.over;
    fitted.squashed_to_m = piece.squashed_to_m;
    fitted.band_state = piece.band_state;
    return shape_of(workshop_, fitted);
  }

  void find_sweep() {
    const auto& places = simulation_.before(view_.step).places;
    const auto place = places.find(step_.place);
    if (place == places.end()) {
      return;
    }
    for (const Fitted& fitted : place->second.fitted) {
      const Shape& shape = shape_of(workshop_, fitted);
      sweep_.low_m = std::min(sweep_.low_m, fitted.height_m + shape.low_m());
      sweep_.high_m = std::max(sweep_.high_m, fitted.height_m + shape.high_m());
      sweep_.outer_m = std::max(sweep_.outer_m, shape.solid().outer_m());
    }
  }

  /// What the user does with the part: turned from its key, turned over, let go.
  void apply_hand() {
    const bool single = outcome_.hand != nullptr && outcome_.hand->pieces.size() == 1;
    double lead_rad = step_.turn_rad + view_.hand.turn_rad;
    for (const PosedPiece& piece : moment_.pieces) {
      if (piece.in_hand && outcome_.hand != nullptr && piece.id == outcome_.hand->lead) {
        lead_rad = piece.turn_rad + view_.hand.turn_rad;
      }
    }
    for (PosedPiece& piece : moment_.pieces) {
      if (!piece.in_hand || view_.moment >= 1) {
        continue;
      }
      piece.turn_rad += view_.hand.turn_rad;
      if (view_.hand.let_go && dropped_ && dropped_->rest_m) {
        // It falls straight from where it hangs, as it is turned.
        const double stands_off_m = *dropped_->rest_m - moment_.falls_to_m;
        const double left = 1 - std::clamp(view_.hand.fall, 0.0, 1.0);
        piece.height_m += (stands_off_m - (moment_.falls_from_m - moment_.falls_to_m)) * (1 - left);
        // The pieces of a sub-build keep their turns to one another.
        piece.turn_rad += step_.turn_rad + view_.hand.turn_rad - lead_rad;
      }
      if (view_.hand.over && single) {
        piece.over = !piece.over;
      }
    }
  }

  /// Pulled apart along the axis in the order of their heights.
  void apart() {
    if (view_.explode <= 0) {
      return;
    }
    std::vector<PosedPiece*> by_height;
    for (PosedPiece& piece : moment_.pieces) {
      by_height.push_back(&piece);
    }
    std::ranges::stable_sort(by_height, {}, [&](const PosedPiece* piece) {
      return piece->height_m + shape_of_piece(*piece).low_m();
    });
    double length_m = 0;
    double outer_m = 0.01;
    for (const PosedPiece* piece : by_height) {
      const Shape& shape = shape_of_piece(*piece);
      length_m += shape.high_m() - shape.low_m() + gap_m;
      // What stands beside the axis, a servo's cover, would spread the rows for nothing.
      const auto& rings = shape.solid().rings;
      if (std::ranges::any_of(rings, [](const SectorRing& ring) { return ring.full(); })) {
        outer_m = std::max(outer_m, shape.solid().outer_m());
      }
    }
    const int rows = rows_for(length_m, 2 * outer_m + gap_m);
    const double row_m = length_m / rows;
    double next_m = 0; // along one line, whichever row it is in
    for (PosedPiece* piece : by_height) {
      const Shape& shape = shape_of_piece(*piece);
      const double long_m = shape.high_m() - shape.low_m();
      const int row = std::min(static_cast<int>((next_m + long_m / 2) / row_m), rows - 1);
      if (row != row_) {
        row_ = row;
        along_m_ = 0;
      }
      const double apart_m = along_m_ - shape.low_m();
      piece->height_m += (apart_m - piece->height_m) * view_.explode;
      piece->aside_m += ((rows - 1) / 2.0 - row) * (2 * outer_m + gap_m) * view_.explode;
      along_m_ += long_m + gap_m;
      next_m += long_m + gap_m;
    }
    aside_m_ = (rows - 1) / 2.0 * (2 * outer_m + gap_m) * view_.explode;
  }

  /// In how many rows a line of parts is folded, so that it is drawn as large as can be.
  /// Only where the axis lies across the picture: rows stand one under the other.
  [[nodiscard]] int rows_for(double length_m, double row_m) const {
    if (!view_.settings.axis_level) {
      return 1;
    }
    // Seen from the side and a little from the end: a row is shortened, and shows its end.
    const double rise_rad = std::abs(row_rise_rad + view_.view.rise_rad);
    const double seen_m = length_m * std::cos(rise_rad);
    const double end_m = row_m * std::sin(rise_rad);
    int best = 1;
    double largest = 0;
    for (int rows = 1; rows <= 6; ++rows) {
      const double size = std::min(aspect_ / (seen_m / rows + end_m), 1 / (rows * row_m));
      if (size > largest * 1.02) {
        largest = size;
        best = rows;
      }
    }
    return best;
  }

  Role role_of(const PosedPiece& piece, const Component& part) const {
    if (part.kind == ComponentKind::tool && !piece.in_hand) {
      return Role::tool;
    }
    if (view_.settings.own_materials) {
      return Role::shown;
    }
    if (piece.in_hand && (view_.moment < 1 || piece.new_here)) {
      return Role::in_hand;
    }
    const auto [host, groove] = halves(step_.groove);
    return piece.id == step_.seat || piece.id == host ? Role::mate : Role::placed;
  }

  void add_items() {
    const bool assembly = outcome_.hand != nullptr && outcome_.hand->pieces.size() > 1;
    std::uint32_t pick = 1;
    for (const PosedPiece& piece : moment_.pieces) {
      const UnitComponent* component = unit_.component(piece.id);
      const Shape& shape = shape_of_piece(piece);
      PictureItem item;
      item.id = piece.id;
      item.mesh = component->mesh;
      item.pose = pose_of(piece, shape);
      item.role = role_of(piece, component->part);
      item.material = component->part.material;
      item.stretch = stretch_of(workshop_, *component, piece);
      item.pick = pick++;
      // A single part in hand is whole until it is in.
      const bool held = piece.in_hand && view_.moment < 1 && !assembly;
      const InCut how = held ? InCut::whole : in_cut(component->part);
      item.cut = how != InCut::whole;
      if (how == InCut::round_bodies) {
        by_bodies_.push_back(picture_.items.size());
      }
      picture_.items.push_back(item);
      reach(piece, shape);
    }
  }

  /// What hides the part in hand turns into outlines.
  void look_through() {
    // Pulled apart nothing has to be hidden; turned over in mid air all of it is in hand.
    if (view_.settings.see_through == SeeThrough::off || !in_hand_ || view_.explode > 0 ||
        step_.kind == StepKind::turn_over) {
      return;
    }
    std::vector<Cover> covers;
    for (std::size_t i = 0; i < picture_.items.size(); ++i) {
      const PictureItem& item = picture_.items[i];
      const PosedPiece& piece = moment_.pieces[i];
      if (item.role != Role::in_hand && piece.over_more_rad == 0) {
        covers.push_back({item.id, &shape_of_piece(piece).solid(), piece.height_m, piece.turn_rad,
                          piece.aside_m, item.cut});
      }
    }
    const CoverShares shares = cover_of_hand(picture_, covers, places_);
    const std::vector<std::string> through =
        seen_through(shares, covers, view_.settings.see_through, view_.seen_through);
    for (PictureItem& item : picture_.items) {
      item.outline = std::ranges::binary_search(through, item.id);
    }
  }

  /// Bolts, pins, balls and rollers stand whole or are gone, beside what of their part is cut.
  void leave_whole() {
    if (!picture_.cut.on) {
      return;
    }
    for (const std::size_t at : by_bodies_) {
      PictureItem& item = picture_.items[at];
      const CutShares shares = bodies_.shares(item.mesh, item.pose, picture_.cut);
      PictureItem whole = item;
      whole.cut = false;
      whole.mesh = shares.whole;
      if (shares.cut == nullptr) {
        static const auto nothing = std::make_shared<const Mesh>();
        item = whole;
        item.mesh = shares.whole != nullptr ? shares.whole : nothing;
        continue;
      }
      item.mesh = shares.cut;
      if (shares.whole != nullptr) {
        picture_.items.push_back(whole); // last: what came before keeps its hatching
      }
    }
  }

  void reach(const PosedPiece& piece, const Shape& shape) {
    whole_.outer_m = std::max(whole_.outer_m, shape.solid().outer_m());
    const double low_m = piece.height_m + shape.low_m();
    const double high_m = piece.height_m + shape.high_m();
    whole_.low_m = any_ ? std::min(whole_.low_m, low_m) : low_m;
    whole_.high_m = any_ ? std::max(whole_.high_m, high_m) : high_m;
    any_ = true;
    if (piece.in_hand) {
      hand_.low_m = in_hand_ ? std::min(hand_.low_m, low_m) : low_m;
      hand_.high_m = in_hand_ ? std::max(hand_.high_m, high_m) : high_m;
      hand_.outer_m = std::max(hand_.outer_m, shape.solid().outer_m());
      in_hand_ = true;
    }
  }

  void light(int pair, const std::string& id, const Key& key) {
    picture_.keys.push_back(
        {pair, id, key.angle_rad, key.inner_m, key.outer_m, key.low_m, key.high_m, key.width_m});
  }

  /// Where the mate's key stands in the place, turned as the mate is; where it is
  /// not in, where the part's own comes to be.
  [[nodiscard]] double key_angle(const Key& key, const std::string& mate_id,
                                 const std::string& mate_key_id) const {
    const auto& places = simulation_.before(view_.step).places;
    const auto place = places.find(step_.place);
    const Fitted* mate = place == places.end() ? nullptr : place->second.find(mate_id);
    if (mate != nullptr) {
      if (const auto there = key_there(workshop_, *mate, mate_key_id)) {
        return there->angle_rad;
      }
    }
    return (step_.way_up == WayUp::turned_over ? -key.angle_rad : key.angle_rad) + step_.turn_rad;
  }

  void light_keys() {
    if (step_.key.empty()) {
      return;
    }
    const auto [id, key_id] = halves(step_.key);
    const Key* key = key_named(workshop_.part(id), key_id);
    if (key == nullptr) {
      return;
    }
    light(1, id, *key);
    const auto [mate_id, mate_key_id] = halves(key->fits);
    const UnitComponent* mate = unit_.component(mate_id);
    const Key* mate_key =
        mate == nullptr ? nullptr : key_named(workshop_.part(mate_id), mate_key_id);
    if (mate_key != nullptr) {
      light(1, mate_id, *mate_key);
    }
    key_at_rad_ = key_angle(*key, mate_id, mate_key_id);
  }

  void add_up_arrow() {
    if (outcome_.hand == nullptr || outcome_.hand->pieces.size() != 1 || view_.moment >= 1) {
      return;
    }
    const Component& part = workshop_.part(outcome_.hand->lead);
    // With the work turned over the marked face points down: an arrow there
    // would tell the opposite of what the hand does.
    if (part.marks.empty() || outcome_.hand->pieces.front().over != view_.hand.over) {
      return;
    }
    const Mark& mark = part.marks.front();
    if (part.kind == ComponentKind::band || step_.side_to_m) {
      // A band's mark tells its ends apart, not its faces; what goes in from the side has no
      // face that goes up.
      const auto band = std::ranges::find(picture_.items, part.id, &PictureItem::id);
      const Vec3 at =
          placed_point(band->pose, {-mark.radius_m * std::sin(mark.angle_rad),
                                    mark.radius_m * std::cos(mark.angle_rad), mark.height_m});
      picture_.labels.push_back(
          {mark.words, part.id, std::hypot(at.x, at.y), std::atan2(-at.x, at.y), at.z});
      return;
    }
    // Off the face that goes up, wherever the feature is that tells it.
    picture_.up = UpArrow{part.id, mark.radius_m, mark.angle_rad,
                          top_at_m(part.solid, mark.radius_m), mark.words};
  }

  void add_fall() {
    if (!moment_.moving || !in_hand_ || view_.moment > 0 || view_.hand.let_go ||
        moment_.falls_from_m - moment_.falls_to_m < 1e-3) {
      return;
    }
    FallLine fall;
    fall.radius_m = hand_.outer_m;
    fall.angle_rad = eye_turn() + 90 * degree_rad;
    fall.from_m = hand_.low_m;
    fall.to_m = hand_.low_m - (moment_.falls_from_m - moment_.falls_to_m);
    picture_.fall = fall;
  }

  [[nodiscard]] double eye_turn() const {
    return key_at_rad_ ? *key_at_rad_ + beside_key_rad + cut_rad / 2 : step_.camera.turn_rad;
  }

  /// Frames the part in hand and the place that it goes to; not the picture's
  /// whole height where that is not needed.
  void aim() {
    Framing framed = whole_;
    if (in_hand_ && view_.explode <= 0) {
      const double seat_m = hand_.low_m - std::max(moment_.falls_from_m - moment_.falls_to_m, 0.0);
      framed.high_m = std::max(hand_.high_m, moment_.mouth_m);
      framed.low_m =
          std::max(whole_.low_m, std::min(seat_m, moment_.mouth_m) - 0.6 * whole_.outer_m);
      // Where showing the whole work costs little, nothing of it is cut off.
      if (framed.high_m - whole_.low_m < whole_costs_little * (framed.high_m - framed.low_m)) {
        framed.low_m = whole_.low_m;
      }
      if (picture_.up) {
        framed.high_m =
            std::max(framed.high_m,
                     hand_.high_m + arrow_room * (framed.high_m - framed.low_m + framed.outer_m));
      }
    }
    if (step_.kind == StepKind::turn_over) {
      // Turned over in mid air it sweeps a ball.
      const double middle_m = (sweep_.low_m + sweep_.high_m) / 2;
      const double ball_m = std::hypot(sweep_.outer_m, (sweep_.high_m - sweep_.low_m) / 2);
      framed = {middle_m - 0.8 * ball_m, middle_m + 0.8 * ball_m, ball_m};
    }
    Camera& camera = picture_.camera;
    camera.turn_rad = eye_turn() + view_.view.turn_rad;
    camera.rise_rad = std::clamp(step_.camera.rise_rad + view_.view.rise_rad, -1.45, 1.55);
    camera.axis_level = view_.settings.axis_level;
    if (aside_m_ != 0) {
      // Rows lie square to the eye, one under the other.
      camera.turn_rad = view_.view.turn_rad;
      camera.rise_rad = std::clamp(row_rise_rad + view_.view.rise_rad, -1.45, 1.55);
    }
    fit(framed);
    // A hint may come nearer, but never so near that what must be seen is cut off.
    const double nearer = std::clamp(step_.camera.closeness, 0.3, 1.0);
    camera.distance_m /= nearer * std::clamp(view_.view.zoom, 0.05, 50.0);
    camera.pan_x_m = view_.view.pan_x_m;
    camera.pan_y_m = view_.view.pan_y_m;
    // The cut is about the axis, and rows beside it would be cut wrongly.
    picture_.cut.on = view_.settings.cut && aside_m_ == 0;
    // A hair off whole degrees, where flanks and gaps of parts stand: a cut
    // along a flank shows neither side of it.
    picture_.cut.from_rad = eye_turn() - cut_rad / 2 + off_flanks_rad;
    picture_.cut.to_rad = eye_turn() + cut_rad / 2 + off_flanks_rad;
  }

  /// The least distance, and the height looked at, that keep the cylinder in
  /// the picture with a margin; exact for the perspective, found by halving.
  void fit(const Framing& framed) {
    Camera& camera = picture_.camera;
    const double cos_rise = std::cos(camera.rise_rad);
    const double sin_rise = std::sin(camera.rise_rad);
    const double half = std::tan(camera.fov_rad / 2) / margin;
    camera.look_at_m = (framed.low_m + framed.high_m) / 2;
    double near_m = framed.outer_m;
    double far_m = 40 * (framed.outer_m + framed.high_m - framed.low_m);
    for (int round = 0; round < 48; ++round) {
      const double distance_m = (near_m + far_m) / 2;
      double lowest = 1e9;
      double highest = -1e9;
      double widest = 0;
      for (const double z_m : {framed.low_m, framed.high_m}) {
        for (int i = 0; i < 24; ++i) {
          const double angle = 2 * pi * i / 24;
          const double along_m = framed.outer_m * std::cos(angle); // towards the eye, level
          const double up_m = z_m - camera.look_at_m;
          const double depth_m = std::max(distance_m - along_m * cos_rise - up_m * sin_rise, 1e-3);
          const double y = (up_m * cos_rise - along_m * sin_rise) / depth_m;
          lowest = std::min(lowest, y);
          highest = std::max(highest, y);
          widest = std::max(
              widest, (std::abs(framed.outer_m * std::sin(angle)) + std::abs(aside_m_)) / depth_m);
        }
      }
      // Look at the middle of what is seen, not of the heights.
      camera.look_at_m += (lowest + highest) / 2 * distance_m / std::max(cos_rise, 0.2) * 0.5;
      const double wide = half * std::max(aspect_, 0.1);
      const bool fits = (highest - lowest) / 2 <= (camera.axis_level ? wide : half) &&
                        widest <= (camera.axis_level ? half : wide);
      (fits ? far_m : near_m) = distance_m;
    }
    camera.distance_m = far_m;
  }

  const Unit& unit_;
  Workshop& workshop_;
  const Simulation& simulation_;
  const ViewState& view_;
  double aspect_;
  const std::optional<Lowered>& dropped_;
  BodySorter& bodies_;
  SurfacePlaces& places_;
  const Step& step_;
  const StepOutcome& outcome_;
  Moment moment_;
  Picture picture_;
  Framing whole_;
  int row_ = 0;        ///< pulled apart: which row is being laid
  double along_m_ = 0; ///< … and where its next part begins
  double aside_m_ = 0; ///< how far the outermost row is from the middle
  Framing hand_;
  Framing sweep_; ///< of what is turned over, before it is
  bool any_ = false;
  bool in_hand_ = false;
  std::optional<double> key_at_rad_;
  std::vector<std::size_t> by_bodies_; ///< items of which the cut leaves bodies whole
};

} // namespace

Picture Stage::picture(const ViewState& view, double aspect) const {
  std::optional<Lowered> dropped;
  if (view.hand.let_go && view.moment < 1) {
    dropped = held_drop(view);
  }
  return PictureMaker(unit(), workshop(), simulation(), view, aspect, dropped, answers_->bodies,
                      answers_->places)
      .make();
}

} // namespace lugline
