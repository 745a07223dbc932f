// The recipes by their words, and what several of them have in common.
//
// A maker reads all its figures first, says what cannot be made, and only then
// makes: where the reader is not ok() the part is left as it was. It knows
// figures only, no part by its id. Lengths metres, angles radians.
#pragma once

#include "scene/recipe/figure_reader.h"
#include "scene/recipe/recipe.h"
#include "scene/recipe/workpiece.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

/// Id, name and material of the component are set already; mass, where left 0,
/// comes from the solid.
using RecipeMaker = void (*)(FigureReader& figures, const MeshOptions& options, MadePart& part);

struct Recipe {
  const char* word;     ///< as in recipes.toml: "lugged plate"
  const char* material; ///< where the file names none
  RecipeMaker make;
};

const std::vector<Recipe>& recipes();

// The figures that each asks for stand in guide.cpp, in the words that `lugline recipes` prints;
// turned.h, teeth.h, holes.h, cam.h, pinions.h and aside.h have what several of them share.
void make_lugged_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_wave_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_friction_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_snap_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_waved_snap_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_case(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_centre_support(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_drum(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_shaft(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_hub(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_output_shaft(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_ring_gear(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_carrier(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_turned_part(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_piston(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_retainer(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_spacer_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_inner_race(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_outer_race(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_sprag_element(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_spring_set(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_thrust_washer(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_band(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_pin(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_lifting_spider(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_dished_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_disc_spring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_single_sided_plate(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_roller_clutch(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_thrust_bearing(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_check_ball(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_sealing_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_lip_seal(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_o_ring(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_gasket(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_bushing(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_bolt_set(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_pump_part(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_pump_gears(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_double_wrap_band(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_servo_piston(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_servo_pin(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_servo_cover(FigureReader& f, const MeshOptions& options, MadePart& part);
void make_lever(FigureReader& f, const MeshOptions& options, MadePart& part);

/// A full ring between two diameters and two heights.
SectorRing ring_between(double bore_m, double outside_m, double low_m, double high_m,
                        std::string feature);
/// … with sectors.
SectorRing sectors_between(double bore_m, double outside_m, double low_m, double high_m,
                           std::string feature, std::vector<Sector> sectors);

/// x = -r sin a, y = r cos a.
Vec3 point_at(double r_m, double angle_rad, double z_m);

/// Lugs or slots at an even pitch, one of which may be wider than the rest.
struct LugFigures {
  int count = 0; ///< with the wide one
  double width_m = 0;
  double first_rad = 0;
  std::string name; ///< "lug", "slot"
  std::string fits;
  bool has_wide = false;
  int wide_at = 0; ///< which of them, from 0
  double wide_width_m = 0;
  std::string wide_name;
  std::string wide_fits;

  [[nodiscard]] double angle_rad(int k) const;
  [[nodiscard]] std::vector<Sector> narrow() const;
  [[nodiscard]] std::vector<Sector> wide() const;
  [[nodiscard]] std::vector<Sector> all() const; ///< by rising angle
};

/// Reads `noun`s ("lug": lugs, lug_width, first_lug_at, wide_lug_width, …).
LugFigures read_lugs(FigureReader& f, const std::string& noun, int least);
/// Complains where they do not fit side by side between the diameters.
void check_lugs(FigureReader& f, const LugFigures& lugs, const std::string& noun, double inner_m,
                double outer_m);
/// Narrow and wide lugs as rings, with their keys.
void add_lugs(Workpiece& piece, Component& component, const LugFigures& lugs, double bore_m,
              double outside_m, double low_m, double high_m);
/// The keys alone, for slots.
void add_lug_keys(Component& component, const LugFigures& lugs, double bore_m, double outside_m,
                  double low_m, double high_m);

/// A [[part.seal_groove]]: inner, outer, from, to. Empty where there is a complaint.
std::optional<SectorRing> read_seal_groove(FigureReader& t);

/// A dot of that diameter sunk into a face at an angle, or why it cannot be.
std::string sink_dot(Workpiece& piece, double circle_m, double angle_rad, double dot_m,
                     double low_m, double high_m);

Figure thickness_figure(double value_m, double zone_low_m, double zone_high_m,
                        std::string name = "thickness");

/// Takes the solid over into the part; a complaint where its rings overlap.
void take_solid(FigureReader& f, Workpiece& piece, MadePart& part);

} // namespace lugline
