//! Open questions, and the buttons that answer for a thumb.

use crate::message::Ask;

use super::{Db, StoreError};

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
    let ask = serde_json::to_string(&question.ask).map_err(|why| StoreError::Stored {
        what: "question",
        why: why.to_string(),
    })?;
    Ok(sqlx::query_scalar(
        "insert into questions (chat, person_id, ask, source_key, taken_at, expires_at)
         values ($1, $2, $3, $4, $5, $6) returning id",
    )
    .bind(chat)
    .bind(person_id)
    .bind(ask)
    .bind(&question.source_key)
    .bind(question.taken_at)
    .bind(expires_at)
    .fetch_one(&mut *db)
    .await?)
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
    sqlx::query(
        "insert into buttons (token, outfit_id, question_id, person_id, says, expires_at)
         values ($1, $2, $3, $4, $5, $6)",
    )
    .bind(token)
    .bind(button.outfit_id)
    .bind(button.question_id)
    .bind(button.person_id)
    .bind(&button.says)
    .bind(button.expires_at)
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
