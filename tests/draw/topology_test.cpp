// Edges of a mesh as a drawing needs them: which are drawn, how they join.
#include "tests/draw/shapes.h"
#include "viewer/draw/topology.h"

#include <catch2/catch.hpp>

#include <numbers>

using namespace lugline;
using namespace lugline::shapes;

namespace {

std::vector<EdgeChain> drawn_chains(const Topology& topology) {
  std::vector<std::array<std::uint32_t, 2>> edges;
  for (const SharedEdge& edge : topology.edges)
    if (edge.crease)
      edges.push_back({edge.from, edge.to});
  return chains_of(edges, topology.points_m.size());
}

} // namespace

TEST_CASE("a ring is drawn as its four circles", "[topology]") {
  const Topology topology = topology_of(mesh_of_blocks({ring(0.03, 0.05, 0, 0.01)}, 90));
  CHECK(topology.closed);
  const auto chains = drawn_chains(topology);
  REQUIRE(chains.size() == 4);
  for (const EdgeChain& chain : chains) {
    CHECK(chain.size() == 91);
    CHECK(chain.front() == chain.back());
  }
}

TEST_CASE("a corner ends a run", "[topology]") {
  Block sector = ring(0.03, 0.05, 0, 0.01);
  sector.from_rad = 0.2;
  sector.to_rad = 1.4;
  const Topology topology = topology_of(mesh_of_blocks({sector}, 90));
  CHECK(topology.closed);
  // Twelve edges of a box: three meet at each corner, so none goes round one.
  CHECK(drawn_chains(topology).size() == 12);
}

TEST_CASE("a border between materials is drawn, flat as it is", "[topology]") {
  const Topology topology = topology_of(mesh_of_blocks(
      {ring(0.03, 0.04, 0, 0.01, "bronze"), ring(0.04, 0.05, 0, 0.01, "steel")}, 60));
  CHECK(topology.closed);
  CHECK(drawn_chains(topology).size() == 6);
}

TEST_CASE("solids that touch along an edge are closed, and a missing face is not", "[topology]") {
  Block first = ring(0.03, 0.05, 0, 0.01);
  first.from_rad = 0.2;
  first.to_rad = 0.6;
  Block second = ring(0.03, 0.05, 0.01, 0.02);
  second.from_rad = 0.6;
  second.to_rad = 1.0;
  const Mesh both = mesh_of_blocks({first, second}, 60);
  CHECK(topology_of(both).closed);
  const Mesh open = without_triangles(both, [](const Vec3& corner, const Vec3& normal) {
    return normal.z > 0.9 && corner.z > 0.015;
  });
  CHECK_FALSE(topology_of(open).closed);
}
