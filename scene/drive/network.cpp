#include "scene/drive/network.h"

#include <cassert>

namespace lugline {

namespace {

// The case has no column: its speed is nothing and its torque is whatever is left.
void add_to(RationalRow& row, std::size_t body, const Rational& amount) {
  assert(body <= row.size());
  if (body != 0) {
    row[body - 1] += amount;
  }
}

} // namespace

std::size_t TrainNetwork::add_body(std::string name) {
  bodies.push_back(std::move(name));
  return bodies.size() - 1;
}

RationalRow row_of(const TrainNetwork& network, const ToothMesh& mesh) {
  RationalRow row(network.unknowns(), 0);
  const Rational a = mesh.teeth_a;
  const Rational b = mesh.internal ? -mesh.teeth_b : mesh.teeth_b;
  add_to(row, mesh.a, a);
  add_to(row, mesh.b, b);
  add_to(row, mesh.carrier, -(a + b));
  return row;
}

RationalRow row_of(const TrainNetwork& network, const Coupling& coupling) {
  RationalRow row(network.unknowns(), 0);
  add_to(row, coupling.of, 1);
  add_to(row, coupling.to, -1);
  return row;
}

RationalRow row_of_body(const TrainNetwork& network, std::size_t body) {
  RationalRow row(network.unknowns(), 0);
  add_to(row, body, 1);
  return row;
}

std::vector<RationalRow> rows_of(const TrainNetwork& network,
                                 const std::vector<Coupling>& couplings) {
  std::vector<RationalRow> rows;
  for (const ToothMesh& mesh : network.meshes) {
    rows.push_back(row_of(network, mesh));
  }
  for (const Coupling& coupling : couplings) {
    rows.push_back(row_of(network, coupling));
  }
  return rows;
}

SolutionSpace speeds_of(const TrainNetwork& network, const std::vector<Coupling>& couplings,
                        const std::vector<GivenSpeed>& given) {
  std::vector<RationalRow> rows = rows_of(network, couplings);
  RationalRow right(rows.size(), 0);
  for (const auto& [body, speed] : given) {
    rows.push_back(row_of_body(network, body));
    right.push_back(speed);
  }
  return solve(std::move(rows), std::move(right), network.unknowns());
}

SolutionSpace torques_of(const TrainNetwork& network, const std::vector<Coupling>& couplings,
                         const std::vector<GivenTorque>& given,
                         const std::vector<std::size_t>& reacting) {
  std::vector<RationalRow> columns = rows_of(network, couplings);
  for (const std::size_t body : reacting) {
    columns.push_back(row_of_body(network, body));
  }
  std::vector<RationalRow> rows(network.unknowns(), RationalRow(columns.size(), 0));
  for (std::size_t body = 0; body < network.unknowns(); ++body) {
    for (std::size_t column = 0; column < columns.size(); ++column) {
      rows[body][column] = columns[column][body];
    }
  }
  RationalRow right(network.unknowns(), 0);
  for (const auto& [body, torque] : given) {
    add_to(right, body, -torque);
  }
  return solve(std::move(rows), std::move(right), columns.size());
}

} // namespace lugline
