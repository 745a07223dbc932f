// The demo unit, loaded and simulated once for all tests that ask about it.
#pragma once

#include "scene/build/judge.h"
#include "scene/build/simulate.h"
#include "scene/load/load.h"

#include <memory>
#include <string>

namespace lugline::test {

struct Demo {
  std::shared_ptr<const Unit> unit;
  std::unique_ptr<Workshop> workshop;
  Simulation simulation;

  [[nodiscard]] std::size_t step(const std::string& id) const;
  /// The last step that lowers the part, alone or leading a sub-build.
  [[nodiscard]] std::size_t lowering(const std::string& part) const;
};

Demo& demo();

/// A copy of the demo's folder in which text in one of its TOML files is
/// replaced (it must be there), loaded.
LoadReport demo_with(const std::string& file, const std::string& text, const std::string& other);

inline constexpr double mm = 1e-3;
inline constexpr double deg = 0.017453292519943295;

} // namespace lugline::test
