#pragma once
// The use cases: one request, one answer, the same for every face. A file name `-` is standard input, or standard
// output; `book:NAME` is a saw of the book.
//
// What cannot be taken as a whole (a file, a cut list, a port that is not there) gives errors alone. A single bad
// reading stands in the answer's `head.errors` and the rest is answered; requests that write a file then write nothing
// and fail.

#include <optional>
#include <string>

#include "base/error.hpp"
#include "base/number_text.hpp"
#include "wire/answer.hpp"

namespace portwright::desk {

struct StudyRequest {
  std::string file;
  std::string cuts;           ///< text; empty: the saw as it is
  std::optional<double> rpm;  ///< none: the in-cut reading, else 9,000
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::StudyAnswer> study(const StudyRequest& request);

struct WhyRequest {
  StudyRequest of;
  std::string figure;  ///< an id, or the end of one where only one figure ends so: "blowdown"
  bool turns = true;   ///< whether the engine may be turned for it (run.*, heat.*, ..), which takes seconds
};
[[nodiscard]] base::ResultAll<wire::WhyAnswer> why(const WhyRequest& request);

struct CheckRequest {
  std::string file;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::CheckAnswer> check(const CheckRequest& request);

struct CompareRequest {
  std::string file_a;
  std::string file_b;  ///< empty: the same saw
  std::string cuts_a, cuts_b;
  std::optional<double> rpm;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::CompareAnswer> compare(const CompareRequest& request);

struct EdgeRequest {
  std::string file;
  std::string port;
  std::string edge;  ///< roof | floor; empty: the one that opens the port
  std::string at;    ///< "98 deg", "duration 160 deg", "closes 258 deg", "drop 24 mm", "height 37 mm"; empty: as read
  std::string cuts;
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::EdgeAnswer> edge(const EdgeRequest& request);

struct UnitsRequest {
  std::string text;
  base::UnitStyle style = base::UnitStyle::shop;
};
[[nodiscard]] base::ResultAll<wire::UnitsAnswer> units(const UnitsRequest& request);

/// A file to fill. A file that is already there is not written over.
struct BlankRequest {
  std::string name;
  std::string output = "-";
};
[[nodiscard]] base::ResultAll<wire::WrittenAnswer> blank(const BlankRequest& request);

/// Refuses a cut list that names a file. A list that cannot be read passes: the use case says what is wrong with it.
/// Error: bad_cut, with the place of the cut.
[[nodiscard]] base::ResultAll<void> without_files(const std::string& cuts);

/// A sheet that was drawn and not written.
struct Sheet {
  wire::WrittenAnswer about;  ///< without a file
  std::string bytes;
};

struct MapRequest {
  std::string file, cuts, output;
  std::string at;  ///< crank angle of the piston drawn, "134 deg"; empty: the sheet's own choice
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::WrittenAnswer> map(const MapRequest& request);
[[nodiscard]] base::ResultAll<Sheet> map_sheet(const MapRequest& request);

struct TemplateRequest {
  std::string file, cuts, output;
  std::string paper;    ///< A4 | Letter; empty: A4
  std::string printer;  ///< measured lengths of the bars across and along: "99.2 mm, 99.6 mm"; empty: taken as true
  std::string paper_thickness;  ///< "0.10 mm"; empty: the sheet's own
  base::UnitStyle style = base::UnitStyle::shop;
  std::string book = {};  ///< that `book:NAME` speaks of; empty: PORTWRIGHT_BOOK, else the usual one
};
[[nodiscard]] base::ResultAll<wire::WrittenAnswer> paper_template(const TemplateRequest& request);
[[nodiscard]] base::ResultAll<Sheet> template_sheet(const TemplateRequest& request);

struct MeasuringSheetRequest {
  std::string output;
  std::string paper;  ///< A4 | Letter; empty: A4
};
[[nodiscard]] base::ResultAll<wire::WrittenAnswer> measuring_sheet(const MeasuringSheetRequest& request);
[[nodiscard]] base::ResultAll<Sheet> blank_measuring_sheet(const MeasuringSheetRequest& request);

}  // namespace portwright::desk
