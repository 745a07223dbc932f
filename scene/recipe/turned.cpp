#include "scene/recipe/turned.h"

#include "scene/recipe/cam.h"
#include "scene/recipe/holes.h"
#include "scene/recipe/teeth.h"

#include <cmath>
#include <optional>
#include <utility>

namespace lugline {

namespace {

/// from and to, the lower first.
struct Span {
  double low_m = 0;
  double high_m = 0;
};

Span read_span(FigureReader& f) {
  const Span span{f.height("from"), f.height("to")};
  if (f.ok()) {
    f.must_be_less("from", span.low_m, "to", span.high_m);
  }
  return span;
}

class Turned {
public:
  Turned(FigureReader& f, const MeshOptions& options, MadePart& part)
      : f_(f), options_(options), part_(part) {}

  void read(const TurnedNeeds& needs) {
    read_sections();
    read_slots();
    read_teeth();
    read_blocks("pad");
    read_blocks("notch");
    read_grooves();
    read_seal_grooves();
    read_round_holes();
    read_cams();
    read_measures();
    need("slots", slots_read_, needs.slots);
    need("teeth", teeth_read_, needs.teeth);
    need("groove", static_cast<int>(part_.component.grooves.size()), needs.grooves);
  }

  void finish() {
    const std::string overlap = piece_.overlap();
    if (f_.ok() && !overlap.empty()) {
      f_.impossible("section", "cannot be: " + overlap);
    }
    // Cuts come after everything that stands, however the file is ordered.
    for (const auto& [region, reader, name] : cuts_) {
      if (!f_.ok()) {
        return;
      }
      const std::string problem = piece_.cut(region);
      if (!problem.empty()) {
        FigureReader at = reader;
        at.impossible(name, problem);
      }
    }
    if (f_.ok() && piece_.solid().rings.empty()) {
      f_.impossible("section", "leaves nothing once all is cut away");
    }
    if (f_.ok()) {
      part_.component.solid = piece_.take();
    }
  }

private:
  struct Cut {
    SectorRing region;
    FigureReader reader;
    std::string at;
  };

  void need(const std::string& name, int read, int least) {
    if (f_.ok() && read < least) {
      f_.impossible(name, "is missing: this recipe needs at least one [[part." + name + "]]");
    }
  }

  void check_name(FigureReader& t, const std::string& name) {
    for (const Key& key : part_.component.keys) {
      if (key.id == name) {
        t.impossible("name", "\"" + name + "\" names something else of this part too",
                     "give it a name of its own");
        return;
      }
    }
  }

  void read_sections() {
    std::vector<FigureReader> tables = f_.tables("section");
    if (tables.empty() && f_.ok()) {
      f_.impossible("section", "is missing: a turned part needs at least one [[part.section]]");
    }
    for (FigureReader& t : tables) {
      const double bore_m = t.length_if_given("bore").value_or(0);
      const double outside_m = t.length("outside");
      const Span span = read_span(t);
      const std::string feature = t.text_or("feature", "");
      t.finish("a section");
      if (t.ok() && t.must_be_less("bore", bore_m, "outside", outside_m)) {
        piece_.add(ring_between(bore_m, outside_m, span.low_m, span.high_m, feature));
      }
    }
  }

  void read_slots() {
    for (FigureReader& t : f_.tables("slots")) {
      ++slots_read_;
      const double land_m = t.length("land");
      const double bottom_m = t.length("bottom");
      const Span span = read_span(t);
      const LugFigures slots = read_lugs(t, "slot", 1);
      const std::string feature = t.text_or("feature", "slot land");
      t.finish("a set of slots");
      if (!t.ok() || !t.must_be_less("land", land_m, "bottom", bottom_m)) {
        continue;
      }
      check_lugs(t, slots, "slot", land_m, bottom_m);
      if (t.ok()) {
        piece_.add(sectors_between(land_m, bottom_m, span.low_m, span.high_m, feature,
                                   between(slots.all())));
        add_lug_keys(part_.component, slots, land_m, bottom_m, span.low_m, span.high_m);
      }
    }
  }

  void read_teeth() {
    for (FigureReader& t : f_.tables("teeth")) {
      ++teeth_read_;
      if (std::optional<Teeth> teeth = lugline::read_teeth(t, options_)) {
        for (SectorRing& ring : teeth->rings) {
          piece_.add(std::move(ring));
        }
        part_.component.keys.push_back(teeth->key);
      }
    }
  }

  /// Pads stand on the body; notches are cut into it.
  void read_blocks(const std::string& noun) {
    for (FigureReader& t : f_.tables(noun)) {
      const double inner_m = t.length("inner");
      const double outer_m = t.length("outer");
      const Span span = read_span(t);
      const double width_m = t.length("width");
      const int count = t.count_or("count", 1, 1, 360);
      const double at_rad = t.angle_or("at", 0);
      const double offset_m = t.height_or("offset", 0);
      const std::string name = t.text_or("name", noun);
      const std::string fits = t.text_or("fits", "");
      t.finish("a " + noun);
      if (!t.ok() || !t.must_be_less("inner", inner_m, "outer", outer_m)) {
        continue;
      }
      const Sector one{{at_rad, offset_m - width_m / 2}, {at_rad, offset_m + width_m / 2}};
      const std::vector<Sector> sectors = repeated(one, count);
      if (2 * std::abs(offset_m) + width_m >= inner_m ||
          first_meeting(sectors, inner_m / 2, outer_m / 2) >= 0) {
        t.impossible("width",
                     in_brackets(in_mm(width_m)) + " leaves no room round " + in_mm(inner_m));
        continue;
      }
      SectorRing block = sectors_between(inner_m, outer_m, span.low_m, span.high_m, name, sectors);
      if (noun == "pad") {
        piece_.add(std::move(block));
      } else {
        cuts_.push_back({std::move(block), t, "width"});
      }
      part_.component.keys.push_back({name, fits, at_rad + std::asin(2 * offset_m / inner_m),
                                      inner_m / 2, outer_m / 2, span.low_m, span.high_m, width_m});
    }
  }

  void read_grooves() {
    for (FigureReader& t : f_.tables("groove")) {
      Groove groove;
      groove.id = t.text("id");
      groove.in_bore = t.word("in", {"bore", "shaft"}) == "bore";
      const double land_m = t.length("land");
      const double bottom_m = t.length("bottom");
      const Span span = read_span(t);
      groove.loads_up = t.word("loads", {"up", "down"}) == "up";
      t.finish("a groove");
      if (!t.ok()) {
        continue;
      }
      if (part_.component.groove(groove.id) != nullptr) {
        t.impossible("id", "\"" + groove.id + "\" names another groove of this part");
        continue;
      }
      const bool deep = groove.in_bore ? t.must_be_less("land", land_m, "bottom", bottom_m)
                                       : t.must_be_less("bottom", bottom_m, "land", land_m);
      if (!deep) {
        continue;
      }
      groove.low_m = span.low_m;
      groove.high_m = span.high_m;
      groove.bottom_m = bottom_m / 2;
      groove.land_m = land_m / 2;
      part_.component.grooves.push_back(groove);
      cuts_.push_back({ring_between(std::min(land_m, bottom_m), std::max(land_m, bottom_m),
                                    span.low_m, span.high_m, "groove"),
                       t, "bottom"});
    }
  }

  void read_seal_grooves() {
    for (FigureReader& t : f_.tables("seal_groove")) {
      if (const std::optional<SectorRing> groove = read_seal_groove(t)) {
        cuts_.push_back({*groove, t, "outer"});
      }
    }
  }

  void read_round_holes() {
    for (FigureReader& t : f_.tables("hole")) {
      const HoleFigures holes = read_holes(t);
      const Span span = read_span(t);
      t.finish("a hole");
      if (t.ok()) {
        check_holes(t, holes);
        check_name(t, holes.name);
      }
      if (!t.ok()) {
        continue;
      }
      add_hole_keys(part_.component, holes, span.low_m, span.high_m);
      for (SectorRing& band : hole_bands(holes, span.low_m, span.high_m, options_)) {
        cuts_.push_back({std::move(band), t, "diameter"});
      }
    }
  }

  void read_cams() {
    for (FigureReader& t : f_.tables("cam")) {
      const CamFigures cam = read_cam(t);
      const Span span = read_span(t);
      t.finish("a cam");
      if (t.ok()) {
        check_cam(t, cam);
        check_name(t, cam.name);
      }
      if (!t.ok()) {
        continue;
      }
      part_.component.keys.push_back({cam.name, cam.fits, cam.first_rad, cam.bore_m / 2,
                                      cam.bore_m / 2 + cam.depth_m, span.low_m, span.high_m,
                                      cam.width_rad * cam.bore_m / 2});
      part_.component.marks.push_back(
          {std::string("the shallow ends of the cam's pockets lie ") +
               (cam.shallow_clockwise ? "clockwise" : "counter-clockwise") + ", seen from above",
           cam.bore_m / 2, cam.first_rad, span.high_m});
      for (SectorRing& band : cam_bands(cam, span.low_m, span.high_m)) {
        cuts_.push_back({std::move(band), t, "depth"});
      }
    }
  }

  void read_measures() {
    for (FigureReader& t : f_.tables("measure")) {
      const std::string name = t.text("name");
      const Span span = read_span(t);
      t.finish("a measure");
      if (t.ok()) {
        part_.component.figures.push_back(
            thickness_figure(span.high_m - span.low_m, span.low_m, span.high_m, name));
      }
    }
  }

  FigureReader& f_;
  const MeshOptions& options_;
  MadePart& part_;
  Workpiece piece_;
  std::vector<Cut> cuts_;
  int slots_read_ = 0;
  int teeth_read_ = 0;
};

} // namespace

void make_turned(FigureReader& f, const MeshOptions& options, MadePart& part, ComponentKind kind,
                 const TurnedNeeds& needs) {
  Turned turned(f, options, part);
  turned.read(needs);
  if (f.ok()) {
    turned.finish();
  }
  if (!f.ok()) {
    return;
  }
  part.component.kind = kind;
  part.mesh = mesh_of(part.component.solid, part.component.material, options);
}

void make_case(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::case_, {1, 0, 1});
}

void make_centre_support(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::support, {});
}

void make_drum(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::drum, {1, 0, 1});
}

void make_pump_part(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::pump, {});
}

void make_shaft(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::shaft, {0, 1, 0});
}

void make_hub(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::hub, {0, 1, 0});
}

/// With a drive cup, whose slots it may have.
void make_output_shaft(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::shaft, {});
}

void make_ring_gear(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::ring_gear, {0, 1, 0});
}

void make_turned_part(FigureReader& f, const MeshOptions& options, MadePart& part) {
  make_turned(f, options, part, ComponentKind::other, {});
}

} // namespace lugline
