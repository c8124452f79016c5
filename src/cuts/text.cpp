#include <algorithm>

#include "base/quantity/number.hpp"
#include "cuts/cut.hpp"
#include "cuts/grammar.hpp"

namespace portwright::cuts {
namespace {

using base::Dimension;

std::string signed_text(double amount, Dimension dimension) {
  std::string text = amount_text(amount, dimension);
  if (text.front() != '-') text.insert(text.begin(), '+');
  return text;
}

// In quotation marks unless it is one plain word; a name with such a mark in it was typed without them.
std::string file_text(const std::string& file) {
  const auto plain = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' || c == '.' ||
           c == '/' || c == '-';
  };
  const bool bare = std::all_of(file.begin(), file.end(), plain) || file.find('"') != std::string::npos;
  return bare ? file : "\"" + file + "\"";
}

std::string octane_text(const Cut& cut) {
  return "to \"" + base::typed::plain_number(cut.amount) + " " + cut.part + "\"";
}

std::string amount_of(const Cut& cut, const Form& form) {
  switch (form.amount) {
    case AmountForm::none:
      return "out";
    case AmountForm::change:
      return signed_text(cut.amount, form.dimension);
    case AmountForm::quantity:
      return amount_text(cut.amount, form.dimension);
    case AmountForm::size:
      return "to " + amount_text(cut.amount, form.dimension);
    case AmountForm::octane:
      return octane_text(cut);
    case AmountForm::file:
      return "to " + file_text(cut.file);
    case AmountForm::areas:
      break;
  }
  std::string text = "to";
  for (const double area : cut.amounts) text += " " + amount_text(area, form.dimension);
  return text;
}

}  // namespace

bool operator==(const Cut& a, const Cut& b) {
  return a.act == b.act && a.port == b.port && a.side == b.side && a.amount == b.amount && a.width == b.width &&
         a.amounts == b.amounts && a.part == b.part && a.file == b.file;
}

std::string cut_text(const Cut& cut) {
  const Form& form = form_of(cut);
  std::string text(form.word);
  if (form.port) text += " " + cut.port;
  if (form.side == SideForm::needed) text += " " + cut.side;
  text += " " + amount_of(cut, form);
  if (form.side == SideForm::optional && !cut.side.empty()) text += " " + cut.side;
  if (cut.act == Act::crown_edge) text += " wide " + amount_text(cut.width, form.dimension);
  return text;
}

std::string cuts_text(const CutList& cuts) {
  std::string text;
  for (const Cut& cut : cuts) text += (text.empty() ? "" : "; ") + cut_text(cut);
  return text;
}

std::optional<Cut> inverse(const Cut& cut) {
  const AmountForm form = form_of(cut).amount;
  if (form != AmountForm::change && form != AmountForm::quantity) return std::nullopt;
  Cut back = cut;
  back.amount = 0.0 - cut.amount;
  back.text = cut_text(back);
  return back;
}

}  // namespace portwright::cuts
