#pragma once
// The functions behind the routes. Inside the module only.

#include "server/routes.hpp"

namespace portwright::server {

Response ask_bench(const Call& call);
Response ask_saw(const Call& call);
Response ask_study(const Call& call);
Response ask_why(const Call& call);
Response ask_check(const Call& call);
Response ask_compare(const Call& call);
Response ask_edge(const Call& call);
Response ask_units(const Call& call);
Response ask_bore(const Call& call);
Response ask_form(const Call& call);
Response ask_steps(const Call& call);
Response ask_sisters(const Call& call);
Response ask_find(const Call& call);
Response ask_journal(const Call& call);
Response ask_where(const Call& call);
Response ask_verify(const Call& call);
Response ask_job(const Call& call);
Response ask_network(const Call& call);
Response ask_rubbing(const Call& call);

Response do_add(const Call& call);
Response do_new(const Call& call);
Response do_set(const Call& call);
Response do_note(const Call& call);
Response do_result(const Call& call);
Response do_wood(const Call& call);
Response do_failure(const Call& call);
Response do_photo(const Call& call);
Response do_caption(const Call& call);
Response do_hide_photo(const Call& call);
Response do_cut(const Call& call);
Response do_accept(const Call& call);
Response do_borrow(const Call& call);
Response do_rubbing(const Call& call);
Response do_hide(const Call& call);
Response do_bring_back(const Call& call);
Response do_undo(const Call& call);
Response do_redo(const Call& call);
Response do_own_book(const Call& call);
Response do_demo_book(const Call& call);
Response do_backup(const Call& call);
Response do_network(const Call& call);
Response do_invite(const Call& call);
Response do_revoke(const Call& call);
Response do_another_browser(const Call& call);

Response run_curve(const Call& call);
Response run_traces(const Call& call);
Response run_airflow(const Call& call);
Response run_crank(const Call& call);
Response run_revs(const Call& call);
Response ask_plan(const Call& call);
Response sheet_cuts(const Call& call);
Response run_heat(const Call& call);
Response run_chain(const Call& call);
Response run_bands(const Call& call);
Response run_seek(const Call& call);

/// GET /api/photo/ID: the picture as bytes.
Response photo_picture(const Request& request, const Standing& book);

Response sheet_map(const Call& call);
Response sheet_template(const Call& call);
Response sheet_measuring(const Call& call);
Response sheet_drawing(const Call& call);
Response sheet_qr(const Call& call);

}  // namespace portwright::server
