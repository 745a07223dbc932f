// What stands in unit.toml and sequence.toml, read but not yet judged.
//
// Ids may name nothing yet. Each drafted thing keeps where its keys were
// written, and each id that was written is kept as a Reference, so that every
// judgement made later can point at its line. Lengths are metres.
#pragma once

#include "scene/load/toml_reader.h"
#include "scene/load/unit.h"

#include <optional>
#include <string>
#include <vector>

namespace lugline {

template <class T>
struct Drafted {
  T value;
  KeyPlaces at;
  std::string what; ///< how messages call it: "step 'cc-piston'"
};

/// What an id that was written must name.
enum class Names {
  component,
  place,
  step,
  groove, ///< "COMPONENT/GROOVE"
  key     ///< "COMPONENT/KEY"
};

struct Reference {
  Names names = Names::component;
  std::string written;
  std::string said_by; ///< "step 'cc-piston': seat"
  SourcePlace at;
};

/// One [[component]] of unit.toml.
struct ComponentLine {
  std::string id;
  std::string name;  ///< empty: the model's
  std::string label; ///< empty: the name
  std::string file;  ///< empty: made from the rings that stand in the line
  std::string node;  ///< empty: the only one, or the one of the line's id
  int count = 1;
  std::optional<ComponentKind> kind; ///< empty: the model's
  std::string material;              ///< empty: the model's
  std::optional<double> thickness_m; ///< empty: the model's
  std::vector<Written<double>> options_m;
  std::vector<SectorRing> rings;
  std::vector<Figure> figures;
  KeyPlaces at;

  [[nodiscard]] std::string what() const { return "component " + in_quotes(id); }
  /// "CC-F1" to "CC-F4", or the id alone where there is one piece.
  [[nodiscard]] std::vector<std::string> piece_ids() const;
};

/// The tables of unit.toml about the gear train and what holds it.
struct DriveDraft {
  Drive train; ///< input, output and the air test; its lists stand below until they are judged
  KeyPlaces train_at;
  KeyPlaces air_at;
  std::vector<Drafted<DriveMember>> members;
  std::vector<Drafted<PlanetarySet>> sets;
  std::vector<Drafted<DriveElement>> elements;
  std::vector<Drafted<DriveRange>> ranges;

  /// Whole, once nothing in it is complained of.
  [[nodiscard]] Drive drive() const;
};

/// One length of a [[chain]].
using DraftedLink = Drafted<ChainLink>;

/// One [[chain]] of unit.toml, and where each of its links was written.
struct ChainDraft : Drafted<Chain> {
  DraftedLink gap;
  std::vector<DraftedLink> members;
};

struct UnitDraft {
  std::string name;
  std::string label;
  std::string notice;
  bool invented = false;
  std::vector<ComponentLine> lines;
  std::vector<Drafted<Pack>> packs;
  std::vector<Drafted<Play>> plays;
  std::vector<ChainDraft> chains;
  std::optional<DriveDraft> drive;
  std::vector<Reference> references;
};

struct SequenceDraft {
  std::vector<Drafted<Place>> places;
  std::vector<Drafted<Step>> steps;
  std::vector<Reference> references;
};

/// Empty where the text is not TOML or is of another schema: then nothing of
/// it can be judged. Other findings leave what could be read.
std::optional<UnitDraft> read_unit_toml(const std::string& text, Findings& findings);
std::optional<SequenceDraft> read_sequence_toml(const std::string& text, Findings& findings);

inline constexpr const char* unit_file = "unit.toml";
inline constexpr const char* sequence_file = "sequence.toml";

/// Reads one [[chain]] into the draft.
void read_chain(TableReader& table, UnitDraft& draft);

/// Those tables as they stand in the document, so that the document's other keys can be judged.
struct DriveTables {
  explicit DriveTables(TableReader& root);
  [[nodiscard]] bool any() const;

  std::optional<TableReader> train;
  std::optional<TableReader> air;
  std::vector<TableReader> members;
  std::vector<TableReader> sets;
  std::vector<TableReader> elements;
  std::vector<TableReader> ranges;
};
/// Reads them into draft.drive; the draft's components must be in it already.
void read_drive(DriveTables& tables, TableReader& root, UnitDraft& draft);

/// A drafted thing's id, kept as a reference where the key is there.
std::string referred(TableReader& table, const std::string& key, Names names,
                     std::vector<Reference>& references);
std::vector<std::string> all_referred(TableReader& table, const std::string& key, Names names,
                                      std::vector<Reference>& references);

} // namespace lugline
