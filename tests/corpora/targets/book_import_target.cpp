// What comes from another book: lines of a journal, lines of documents, a saw as one file, and the tree of any document
// taken for a set of readings.

#include <string>

#include "book/tree.hpp"
#include "corpora/targets.hpp"
#include "desk/book/carried.hpp"
#include "desk/book/field_path.hpp"
#include "desk/book/parcel.hpp"
#include "desk/book/saw_tree.hpp"

using namespace portwright;
using corpora::require;

namespace {

void try_journal(std::string_view text) {
  const auto actions = desk::actions_from(text);
  if (!actions) return require(!actions.error().message.empty(), "a refusal says why");
  const std::string lines = desk::journal_lines(*actions);
  const auto again = desk::actions_from(lines);
  require(again.has_value() && desk::journal_lines(*again) == lines, "a journal comes back as it was");
}

void try_documents(std::string_view text) {
  const auto documents = desk::documents_from(text);
  if (!documents) return;
  const std::string lines = desk::document_lines(*documents);
  const auto again = desk::documents_from(lines);
  require(again.has_value() && desk::document_lines(*again) == lines, "documents come back as they were");
}

void try_parcel(std::string_view text) {
  const auto parcel = desk::parcel_from(std::string(text));
  if (!parcel) return require(!parcel.error().message.empty(), "a refusal says why");
  const auto written = desk::parcel_text(parcel->documents, parcel->source());
  require(written.has_value(), "what was taken can be written");
  const auto again = desk::parcel_from(*written);
  require(again.has_value() && desk::parcel_text(again->documents, again->source()) == *written,
          "a parcel comes back as it was");
}

// Any tree may stand where readings are looked for.
void try_readings(std::string_view text) {
  const auto tree = book::parse_tree(text);
  if (!tree || tree->kind != book::Tree::Kind::branch) return;
  const saw::Readings readings = desk::readings_of(*tree);
  const book::Tree once = desk::tree_of(readings);
  require(desk::readings_of(once) == readings, "readings come back from their tree");
  (void)desk::read_tree(*tree);
  for (const wire::BookField& field : desk::fields_of(*tree)) (void)desk::find_field(*tree, field.path);
  for (const book::Part& part : tree->parts) (void)desk::shown_path(*tree, part.name + ".p1.read");
}

}  // namespace

PORTWRIGHT_TARGET(book_import) {
  const std::string_view text = corpora::as_text(bytes);
  try_journal(text);
  try_documents(text);
  try_parcel(text);
  try_readings(text);
  if (const auto plain = desk::from_base64(text)) require(desk::to_base64(*plain) == text, "base 64 has one form");
}
