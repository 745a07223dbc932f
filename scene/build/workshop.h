// The parts of one build at the figures that are known: nominal, or measured.
//
// Makes the drop's shapes from a Unit and the readings, once each, and lends
// them out. The Unit must outlive it. Lengths metres. Not for several threads.
#pragma once

#include "scene/load/unit.h"
#include "scene/pack/bench_reading.h"
#include "scene/seat/shape.h"

#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <vector>

namespace lugline {

/// A thickness that was read in place of the nominal one, or a selective that
/// was chosen.
struct Measured {
  double thickness_m = 0;
  double plus_minus_m = 0;
  /// Where it was read at several places, or with what is known: those, with thickness_m their
  /// mean.
  std::vector<double> places_m = {};
  Instrument instrument = Instrument::unstated;
};
using Readings = std::map<std::string, Measured>; ///< by component id

/// A reading that is left out, and why.
struct RefusedReading {
  std::string part; ///< component id
  std::string why;  ///< "60.00 mm for a steel: between 0.10 mm and 25.00 mm was expected"
};

class Workshop {
public:
  /// Readings that no component can take (no thickness, absurd, inches read as
  /// millimetres, another part's) are left out and listed in refused().
  Workshop(const Unit& unit, Readings readings);

  [[nodiscard]] const Unit& unit() const { return *unit_; }
  [[nodiscard]] const Readings& readings() const { return readings_; }
  [[nodiscard]] const std::vector<RefusedReading>& refused() const { return refused_; }

  /// The part at its known figures. The id must be in the unit.
  [[nodiscard]] const Component& part(const std::string& id) const;
  [[nodiscard]] const std::string& label(const std::string& id) const;

  /// Its shape, turned over or not.
  const Shape& shape(const std::string& id, bool over);
  /// A spring, a wave plate or a waved ring squashed to a height between its faces.
  const Shape& squashed(const std::string& id, bool over, double height_m);
  /// A band in one of its states.
  const Shape& band(const std::string& id, bool over, const std::string& state);
  /// A snap ring under load: a waved one pressed flat, any other as it is.
  const Shape& loaded_ring(const std::string& id, bool over);
  /// A snap ring squeezed or spread to pass.
  const Shape& squeezed(const std::string& id, bool over);

private:
  const Shape& keep(const std::string& key, const Solid& solid);

  const Unit* unit_;
  Readings readings_;
  std::vector<RefusedReading> refused_;
  std::map<std::string, Component> changed_;
  std::map<std::string, std::unique_ptr<const Shape>> shapes_;
};

} // namespace lugline
