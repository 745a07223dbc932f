// CGAL as the judge of solids standing still: do they interfere, a solid wholly inside
// another among them, which a judge of surfaces alone misses.
//
// Lengths metres. Predicates are exact, so faces that just touch interfere: leave room
// for the facets. A mesh that is not closed and manifold once welded has no inside;
// add() throws std::invalid_argument. No CGAL here: it is compiled in judge.cpp alone.
#pragma once

#include "scene/mesh/mesh.h"

#include <cstddef>
#include <memory>

namespace lugline::test {

class Judge {
public:
  Judge();
  ~Judge();
  Judge(const Judge&) = delete;
  Judge& operator=(const Judge&) = delete;

  /// Welded and kept, standing as the mesh has it. Returns its number.
  std::size_t add(const Mesh& mesh);
  /// Stands it elsewhere, from the mesh's own frame.
  void stand(std::size_t solid, const Placement& placement);
  /// Surfaces meet, or one is inside the other.
  [[nodiscard]] bool interfere(std::size_t a, std::size_t b) const;
  /// Surfaces meet; a solid wholly inside the other does not count.
  [[nodiscard]] bool surfaces_meet(std::size_t a, std::size_t b) const;

private:
  struct Solids;
  std::unique_ptr<Solids> solids_;
};

} // namespace lugline::test
