//! Open questions, and the buttons that answer for a thumb.

use crate::domain::meaning::Ask;

use super::{Db, StoreError, rows};

/// A question that waits for one person in one chat.
#[derive(Clone, Debug, PartialEq)]
pub struct Question {
    /// Its number.
    pub id: i64,
    /// What was asked, and what waits for the answer.
    pub ask: Ask,
    /// The message that raised it.
    pub source_key: String,
    /// When that message was sent: the reading counts from then.
    pub taken_at: i64,
}

/// A question as it is asked.
pub struct Asked<'a> {
    /// In which chat.
    pub chat: &'a str,
    /// Whom.
    pub person_id: i64,
    /// What; its number is ignored.
    pub question: &'a Question,
    /// Until when it waits, UTC seconds.
    pub expires_at: i64,
    /// When it was answered or superseded already.
    pub closed_at: Option<i64>,
}

/// Asks; an older question to the same person in the same chat is closed.
///
/// # Errors
/// Whatever the database says.
pub async fn open(
    db: &mut Db,
    chat: &str,
    person_id: i64,
    question: &Question,
    expires_at: i64,
    now: i64,
) -> Result<i64, StoreError> {
    close_all(db, chat, person_id, now).await?;
    let asked = Asked {
        chat,
        person_id,
        question,
        expires_at,
        closed_at: None,
    };
    ask_all(db, &[asked]).await
}

/// Asks questions in one statement. Returns the number of the first; the others follow it.
///
/// # Errors
/// Whatever the database says.
pub async fn ask_all(db: &mut Db, asked: &[Asked<'_>]) -> Result<i64, StoreError> {
    if asked.is_empty() {
        return Ok(0);
    }
    let first = rows::draw(db, rows::Table::Questions, asked.len()).await?;
    let mut rows_of = Vec::with_capacity(asked.len());
    for (place, one) in asked.iter().enumerate() {
        let ask = serde_json::to_string(&one.question.ask).map_err(|why| StoreError::Stored {
            what: "question",
            why: why.to_string(),
        })?;
        rows_of.push((
            first + place as i64,
            one.chat,
            one.person_id,
            ask,
            &one.question.source_key,
            one.question.taken_at,
            one.expires_at,
            one.closed_at,
        ));
    }
    sqlx::query(
        "insert into questions (id, chat, person_id, ask, source_key, taken_at, expires_at, closed_at)
         select cast(j.value ->> 0 as bigint), j.value ->> 1, cast(j.value ->> 2 as bigint), j.value ->> 3,
             j.value ->> 4, cast(j.value ->> 5 as bigint), cast(j.value ->> 6 as bigint),
             cast(j.value ->> 7 as bigint)
         from jsonb_each($1) j where true",
    )
    .bind(rows::json(&rows_of)?)
    .execute(&mut *db)
    .await?;
    Ok(first)
}

/// Closes questions by their numbers.
///
/// # Errors
/// Whatever the database says.
pub async fn close(db: &mut Db, ids: &[i64], now: i64) -> Result<(), StoreError> {
    sqlx::query(
        "update questions set closed_at = $2
         where id in (select cast(value ->> 0 as bigint) from jsonb_each($1)) and closed_at is null",
    )
    .bind(super::rows::of_ids(ids)?)
    .bind(now)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// The question that waits for this person here, if any.
///
/// # Errors
/// Whatever the database says.
pub async fn waiting(db: &mut Db, chat: &str, person_id: i64, now: i64) -> Result<Option<Question>, StoreError> {
    let row: Option<(i64, String, String, i64)> = sqlx::query_as(
        "select id, ask, source_key, taken_at from questions
         where chat = $1 and person_id = $2 and closed_at is null and expires_at > $3 order by id desc limit 1",
    )
    .bind(chat)
    .bind(person_id)
    .bind(now)
    .fetch_optional(&mut *db)
    .await?;
    // A question that an older release asked in another shape has lapsed.
    Ok(row.and_then(|(id, ask, source_key, taken_at)| {
        Some(Question {
            id,
            ask: serde_json::from_str(&ask).ok()?,
            source_key,
            taken_at,
        })
    }))
}

/// The questions that wait for people, the newest of a chat: the person, the chat, the question and when it expires.
/// People come as the parameter of a set-based statement.
#[allow(clippy::type_complexity, reason = "it is taken apart where it is called")]
pub(super) async fn open_to(
    db: &mut Db,
    people: &str,
) -> Result<Vec<(i64, String, Option<(Question, i64)>)>, StoreError> {
    let rows: Vec<(i64, String, i64, String, String, i64, i64)> = sqlx::query_as(
        "select q.person_id, q.chat, q.id, q.ask, q.source_key, q.taken_at, q.expires_at from jsonb_each($1) j
         join questions q on q.person_id = cast(j.value ->> 0 as bigint) where q.closed_at is null order by q.id",
    )
    .bind(people)
    .fetch_all(&mut *db)
    .await?;
    // A question that an older release asked in another shape has lapsed.
    let question = |(person, chat, id, ask, source_key, taken_at, expires_at): (i64, String, i64, String, _, _, _)| {
        let question = serde_json::from_str(&ask).ok().map(|ask| Question {
            id,
            ask,
            source_key,
            taken_at,
        });
        (person, chat, question.map(|question| (question, expires_at)))
    };
    Ok(rows.into_iter().map(question).collect())
}

/// Closes every question to this person here.
///
/// # Errors
/// Whatever the database says.
pub async fn close_all(db: &mut Db, chat: &str, person_id: i64, now: i64) -> Result<(), StoreError> {
    sqlx::query("update questions set closed_at = $1 where chat = $2 and person_id = $3 and closed_at is null")
        .bind(now)
        .bind(chat)
        .bind(person_id)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// Closes the questions that one message raised.
///
/// # Errors
/// Whatever the database says.
pub async fn close_of_message(db: &mut Db, source_key: &str, now: i64) -> Result<(), StoreError> {
    sqlx::query("update questions set closed_at = $1 where source_key = $2 and closed_at is null")
        .bind(now)
        .bind(source_key)
        .execute(&mut *db)
        .await?;
    Ok(())
}

/// A button: an opaque token that says a text.
#[derive(Clone, Debug, PartialEq, sqlx::FromRow)]
pub struct Button {
    /// Only members of this outfit may press it.
    pub outfit_id: i64,
    /// The question that it answers; a closed question makes the button void.
    pub question_id: Option<i64>,
    /// Who may press it; anybody in the outfit if nobody is named.
    pub person_id: Option<i64>,
    /// The text that does the same.
    pub says: String,
    /// After this it does nothing.
    pub expires_at: i64,
}

/// Keeps a button under its token.
///
/// # Errors
/// Whatever the database says.
pub async fn keep_button(db: &mut Db, token: &str, button: &Button) -> Result<(), StoreError> {
    keep_buttons(db, &[(token.to_owned(), button.clone())]).await
}

/// Keeps buttons under their tokens.
///
/// # Errors
/// Whatever the database says.
pub async fn keep_buttons(db: &mut Db, buttons: &[(String, Button)]) -> Result<(), StoreError> {
    if buttons.is_empty() {
        return Ok(());
    }
    let row = |(token, button): &(String, Button)| {
        (
            token.clone(),
            button.outfit_id,
            button.question_id,
            button.person_id,
            button.says.clone(),
            button.expires_at,
        )
    };
    let rows_of: Vec<_> = buttons.iter().map(row).collect();
    sqlx::query(
        "insert into buttons (token, outfit_id, question_id, person_id, says, expires_at)
         select j.value ->> 0, cast(j.value ->> 1 as bigint), cast(j.value ->> 2 as bigint),
             cast(j.value ->> 3 as bigint), j.value ->> 4, cast(j.value ->> 5 as bigint)
         from jsonb_each($1) j where true",
    )
    .bind(rows::json(&rows_of)?)
    .execute(&mut *db)
    .await?;
    Ok(())
}

/// The button behind a token, unless it has expired or its question is closed.
///
/// # Errors
/// Whatever the database says.
pub async fn button(db: &mut Db, token: &str, now: i64) -> Result<Option<Button>, StoreError> {
    Ok(sqlx::query_as(
        "select b.outfit_id, b.question_id, b.person_id, b.says, b.expires_at
         from buttons b left join questions q on q.id = b.question_id
         where b.token = $1 and b.expires_at > $2 and (b.question_id is null or q.closed_at is null)",
    )
    .bind(token)
    .bind(now)
    .fetch_optional(&mut *db)
    .await?)
}

/// Clears away buttons that expired before `before`.
///
/// # Errors
/// Whatever the database says.
pub async fn forget_buttons(db: &mut Db, before: i64) -> Result<(), StoreError> {
    sqlx::query("delete from buttons where expires_at < $1")
        .bind(before)
        .execute(&mut *db)
        .await?;
    Ok(())
}
