//! Jobs by their words.

use super::error::StoreError;
use super::jobs::JobSummary;
use super::open::Store;

impl Store {
    /// Up to `limit` jobs whose name or note has every word of `text`, or one that begins with it;
    /// the best first. What a search for no words finds is nothing.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn search_jobs(&self, text: &str, limit: u32) -> Result<Vec<JobSummary>, StoreError> {
        // Each word in quotes: then nothing of it is taken for an operator.
        let words: Vec<String> = text
            .split(|c: char| !c.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .take(12)
            .map(|word| format!("\"{word}\"*"))
            .collect();
        if words.is_empty() {
            return Ok(Vec::new());
        }
        Ok(self
            .connection
            .prepare_cached(
                "SELECT job.id, job.name, job.goal_use, job.edited_ms FROM job_words
                 JOIN job ON job.rowid = job_words.rowid
                 WHERE job_words MATCH ?1 ORDER BY bm25(job_words, 10.0, 1.0), job.edited_ms DESC LIMIT ?2",
            )?
            .query_map((words.join(" "), limit), JobSummary::of)?
            .collect::<Result<_, _>>()?)
    }
}
